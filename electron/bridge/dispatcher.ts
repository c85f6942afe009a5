/** Between a message and the code that answers it: checks the request, and turns every failure into an answer. */

import type { Problem, Result } from '../../core/index.ts';
import { type CallName, contract, type Reply, type RequestOf, type ResponseOf } from './contract.ts';
import { requestSchema } from './request-schema.ts';

/** A value that is only read; what answers a call may hand out its own. */
export type ReadOnly<Value> = Value extends object ? { readonly [Key in keyof Value]: ReadOnly<Value[Key]> } : Value;
/** The answer to a call, before it is sent. */
export type Answer<Name extends CallName> = Result<ReadOnly<ResponseOf<Name>>, Problem>;

/** One function for each call of the contract; a missing one does not compile. */
export type Handlers = {
  readonly [Name in CallName]: (request: RequestOf<Name>) => Answer<Name> | Promise<Answer<Name>>;
};

export interface Dispatcher {
  /** Never rejects. An unknown call or a request of the wrong shape is answered with `invalidRequest`. */
  call(name: string, request: unknown): Promise<Reply<CallName>>;
}

/** Keeps what was thrown where developers find it. Returns the reference under which it is kept. */
export type ReportDefect = (call: string, cause: unknown) => string;

type AnyHandler = (request: unknown) => Reply<CallName> | Promise<Reply<CallName>>;

export function createDispatcher(handlers: Handlers, reportDefect: ReportDefect): Dispatcher {
  return {
    async call(name, request) {
      if (!isCallName(name))
        return refusal({ kind: 'invalidRequest', call: name.slice(0, 64), detail: 'no such call' });
      try {
        const parsed = requestSchema(name).safeParse(request);
        if (!parsed.success) {
          const [issue] = parsed.error.issues;
          const detail = `${issue?.path.map(String).join('.') ?? ''}: ${issue?.message ?? ''}`;
          return refusal({ kind: 'invalidRequest', call: name, detail });
        }
        // The schema under this very name made the value, so it is what this handler asks for.
        return await (handlers[name] as AnyHandler)(parsed.data);
      } catch (cause) {
        return refusal({ kind: 'internal', reference: reportDefect(name, cause) });
      }
    },
  };
}

export function isCallName(name: string): name is CallName {
  return Object.hasOwn(contract, name);
}

function refusal(problem: Problem): { readonly ok: false; readonly problems: readonly Problem[] } {
  return { ok: false, problems: [problem] };
}
