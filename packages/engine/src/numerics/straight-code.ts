/** The engine is compiled without the library of any platform; browsers and Node both have this. */
const { WebAssembly: platform } = globalThis as unknown as {
  WebAssembly: {
    Module: new (bytes: Uint8Array) => object;
    Instance: new (
      module: object,
    ) => {
      exports: { memory: { buffer: ArrayBuffer } } & Record<string, (place: number) => void>;
    };
  };
};

/** WebAssembly Core Specification 1.0 (W3C, 2019), chapter 5, from memory: the operations, types and sections used here. */
const op = {
  end: 0x0b,
  get: 0x20,
  set: 0x21,
  load: 0x2b,
  store: 0x39,
  int: 0x41,
  less: 0xa1,
  times: 0xa2,
  over: 0xa3,
};
const one = [0x44, 0, 0, 0, 0, 0, 0, 0xf0, 0x3f];
const type = { int: 0x7f, double: 0x7c, function: 0x60 };
const sectionOf = { types: 1, functions: 3, memory: 5, exports: 7, code: 10 };
const exported = { function: 0, memory: 2 };
const header = [0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00];
const page_B = 65_536;
const double_B = 8;

/** A whole number ≥ 0 as the format writes it, seven bits a byte. */
const pushWhole = (bytes: number[], value: number): void => {
  let left = value;
  for (; left >= 128; left >>>= 7) bytes.push((left & 0x7f) | 0x80);
  bytes.push(left);
};

const whole = (value: number): number[] => {
  const bytes: number[] = [];
  pushWhole(bytes, value);
  return bytes;
};

const joined = (parts: readonly ArrayLike<number>[]): Uint8Array => {
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
};

/** With its length before it. */
const sized = (bytes: Uint8Array): Uint8Array => joined([whole(bytes.length), bytes]);

/** Where a value lies: in memory counted from its start or from the place the function is given, or in a variable. */
export type Where = { readonly memory: number } | { readonly behind: number } | { readonly variable: number };

/**
 * Arithmetic on doubles without a loop or a branch, as one function of WebAssembly: for sums that are done ten thousand
 * times with other figures, where looking up what to do next costs more than doing it.
 */
export class StraightCode {
  private readonly bytes: number[] = [];
  private variables = 0;

  /** target = a. */
  move(target: Where, a: Where): this {
    return this.into(target, () => this.value(a));
  }

  /** target = a − b·c. */
  lessProduct(target: Where, a: Where, b: Where, c: Where): this {
    return this.into(target, () => {
      this.value(a);
      this.value(b);
      this.value(c);
      this.bytes.push(op.times, op.less);
    });
  }

  /** target = a·b. */
  product(target: Where, a: Where, b: Where): this {
    return this.into(target, () => {
      this.value(a);
      this.value(b);
      this.bytes.push(op.times);
    });
  }

  /** target = 1/a. */
  inverse(target: Where, a: Where): this {
    return this.into(target, () => {
      this.bytes.push(...one);
      this.value(a);
      this.bytes.push(op.over);
    });
  }

  /** How long the function is so far, bytes. A browser takes some 7 million in one function. */
  get size_B(): number {
    return this.bytes.length;
  }

  /** The body of the function as the format has it. */
  body(): Uint8Array {
    return sized(joined([[1, ...whole(this.variables), type.double], this.bytes, [op.end]]));
  }

  private into(target: Where, push: () => void): this {
    this.address(target);
    push();
    if ('variable' in target) this.variable(op.set, target.variable);
    else this.memory(op.store, offsetOf(target));
    return this;
  }

  private value(from: Where): void {
    this.address(from);
    if ('variable' in from) this.variable(op.get, from.variable);
    else this.memory(op.load, offsetOf(from));
  }

  private address(where: Where): void {
    if ('memory' in where) this.bytes.push(op.int, 0);
    else if ('behind' in where) this.bytes.push(op.get, 0);
  }

  /** Variables come behind the function's one argument. */
  private variable(operation: number, index: number): void {
    this.variables = Math.max(this.variables, index + 1);
    this.bytes.push(operation);
    pushWhole(this.bytes, index + 1);
  }

  /** Doubles lie aligned to 2³ bytes. */
  private memory(operation: number, offset: number): void {
    this.bytes.push(operation, 3);
    pushWhole(this.bytes, double_B * offset);
  }
}

const offsetOf = (where: { readonly memory: number } | { readonly behind: number }): number =>
  'memory' in where ? where.memory : where.behind;

const section = (id: number, items: readonly ArrayLike<number>[]): Uint8Array =>
  joined([[id], sized(joined([whole(items.length), ...items]))]);

const named = (name: string, what: number, index: number): number[] => [
  ...whole(name.length),
  ...[...name].map((letter) => letter.charCodeAt(0)),
  what,
  ...whole(index),
];

/** Functions compiled together, that share one memory: instantiate it as often as it is needed. */
export type Compiled = object;

/**
 * Compiles functions, by name, into one module with a memory.
 * @param doubles how many doubles the memory of one instance holds at least
 */
export const compile = (functions: Readonly<Record<string, StraightCode>>, doubles: number): Compiled => {
  const names = Object.keys(functions);
  const pages = Math.ceil((doubles * double_B) / page_B);
  return new platform.Module(
    joined([
      header,
      section(sectionOf.types, [[type.function, 1, type.int, 0]]),
      section(
        sectionOf.functions,
        names.map(() => [0]),
      ),
      section(sectionOf.memory, [[0, ...whole(pages)]]),
      section(sectionOf.exports, [
        named('memory', exported.memory, 0),
        ...names.map((name, index) => named(name, exported.function, index)),
      ]),
      section(
        sectionOf.code,
        names.map((name) => functions[name]!.body()),
      ),
    ]),
  );
};

/** A memory of its own for the functions; each takes the place, bytes from the start of the memory, that it counts from. */
export const instantiate = (compiled: Compiled) => new platform.Instance(compiled).exports;
