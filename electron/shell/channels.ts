/** The two channels between the shell's main process and its page. */

/** The page asks, the main process answers. */
export const CALL_CHANNEL = 'evenrun:call';
/** The main process tells. */
export const EVENT_CHANNEL = 'evenrun:event';
