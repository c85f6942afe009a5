/** Why a command cannot be given now, in words. */

export const NO_HEADER = 'No header is open.';
export const FINISHED = 'A finished header does not change.';
export const NOT_ON_BENCH = 'Go to the bench first.';
