/** Builds the page when it is missing or older than what it is made of. */
export declare function buildPage(): void;
