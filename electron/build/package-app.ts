/** `npm run dist`: builds everything and makes the installers of this machine's platform in `release`. */

import { fileURLToPath } from 'node:url';
import { build } from 'electron-builder';
import { buildIfStale } from './bundles.ts';
import { type PackagedPlatform, packageConfigFor } from './package-config.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
await buildIfStale(root, ['renderer', 'main', 'preload']);
const made = await build({
  projectDir: root,
  config: packageConfigFor(process.platform as PackagedPlatform),
  publish: 'never',
});
console.log(`Made:\n${made.join('\n')}`);
