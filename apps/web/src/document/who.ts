const remembered = 'airledger-who';

/** Name under which changes are written down, as typed once on this machine; empty when none was typed. */
export const whoAmI = (): string => localStorage.getItem(remembered) ?? '';

export const callMe = (name: string): void => localStorage.setItem(remembered, name.trim());
