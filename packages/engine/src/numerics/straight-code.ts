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
const whole = (value: number): number[] =>
  value < 128 ? [value] : [(value & 0x7f) | 0x80, ...whole(value >>> 7)];

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

  /** The body of the function as the format has it. */
  body(): number[] {
    const code = [1, ...whole(this.variables), type.double, ...this.bytes, op.end];
    return [...whole(code.length), ...code];
  }

  private into(target: Where, push: () => void): this {
    this.address(target);
    push();
    if ('variable' in target) this.bytes.push(op.set, ...this.variable(target.variable));
    else this.bytes.push(op.store, 3, ...whole(double_B * offsetOf(target)));
    return this;
  }

  private value(from: Where): void {
    this.address(from);
    if ('variable' in from) this.bytes.push(op.get, ...this.variable(from.variable));
    else this.bytes.push(op.load, 3, ...whole(double_B * offsetOf(from)));
  }

  private address(where: Where): void {
    if ('memory' in where) this.bytes.push(op.int, 0);
    else if ('behind' in where) this.bytes.push(op.get, 0);
  }

  /** Variables come behind the function's one argument. */
  private variable(index: number): number[] {
    this.variables = Math.max(this.variables, index + 1);
    return whole(index + 1);
  }
}

const offsetOf = (where: { readonly memory: number } | { readonly behind: number }): number =>
  'memory' in where ? where.memory : where.behind;

const section = (id: number, items: readonly (readonly number[])[]): number[] => {
  const body = [...whole(items.length), ...items.flat()];
  return [id, ...whole(body.length), ...body];
};

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
    Uint8Array.from([
      ...header,
      ...section(sectionOf.types, [[type.function, 1, type.int, 0]]),
      ...section(
        sectionOf.functions,
        names.map(() => [0]),
      ),
      ...section(sectionOf.memory, [[0, ...whole(pages)]]),
      ...section(sectionOf.exports, [
        named('memory', exported.memory, 0),
        ...names.map((name, index) => named(name, exported.function, index)),
      ]),
      ...section(
        sectionOf.code,
        names.map((name) => functions[name]!.body()),
      ),
    ]),
  );
};

/** A memory of its own for the functions; each takes the place, bytes from the start of the memory, that it counts from. */
export const instantiate = (compiled: Compiled) => new platform.Instance(compiled).exports;
