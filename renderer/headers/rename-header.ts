/** Renames a header that is not open in this window. */

import { renameHeaderEdit } from '../../core/index.ts';
import type { HostBridge } from '../../electron/bridge/contract.ts';
import { type Answer, askHost } from '../host/host-bridge.ts';
import { freshId } from '../ui/random-id.ts';

/** One ordinary step against the revision on disk, so that it can be undone like any other. */
export async function renameHeader(bridge: HostBridge, headerId: string, name: string): Promise<Answer<'commitSteps'>> {
  const now = await askHost(bridge, 'readRevision', { headerId });
  if (!now.ok) return now;
  return askHost(bridge, 'commitSteps', {
    headerId,
    baseRevision: now.value.revision,
    steps: [{ action: 'do', stepId: freshId(), edit: renameHeaderEdit(name) }],
  });
}
