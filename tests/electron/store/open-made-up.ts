/** As open-and-report.ts, in a program whose schema is one made-up migration further. */

import { registerHooks } from 'node:module';

registerHooks({
  resolve(specifier, context, next) {
    const isList = specifier.endsWith('/migration-list.ts') && !context.parentURL?.endsWith('/made-up-list.ts');
    return isList ? next(new URL('./made-up-list.ts', import.meta.url).href, context) : next(specifier, context);
  },
});
await import('./open-and-report.ts');
