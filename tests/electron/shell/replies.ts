/** The parts of replies that tests of the shell look into. */

export interface OpenedHeaderReply {
  readonly ok: true;
  readonly value: { readonly header: { readonly id: string; readonly name: string } };
}

export type WorkReply =
  | { readonly ok: true; readonly value: { readonly state: string; readonly piece?: unknown } }
  | { readonly ok: false };
