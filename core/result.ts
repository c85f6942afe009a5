/** Expected failures as values: what every core function that can be given bad input returns. */

/** Either a value or the problems that stood in its way. Never thrown. */
export type Result<Value, Trouble> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problems: readonly Trouble[] };

export function success<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

export function failure<Trouble>(...problems: readonly Trouble[]): {
  readonly ok: false;
  readonly problems: readonly Trouble[];
} {
  return { ok: false, problems };
}

/** Makes a switch over `kind` fail to compile until every kind is handled. */
export function assertNever(value: never): never {
  throw new Error(`Unhandled kind: ${JSON.stringify(value)}`);
}
