/** The order of test files: long ones first, so that at the end no worker stands idle beside one of them. */

import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Longest first. What a machine has measured itself counts from its second run on; this is for its first. */
const LONG = ['e2e/accessibility', 'trust/storage', 'trust/typing', 'e2e/shape', 'e2e/moves', 'e2e/'];

function rank({ moduleId }: TestSpecification): number {
  const at = LONG.findIndex((part) => moduleId.includes(`/tests/${part}`));
  return at === -1 ? LONG.length : at;
}

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    // Sorting is stable: files of one rank stay in the order that they came in.
    return sorted.sort((a, b) => rank(a) - rank(b));
  }
}
