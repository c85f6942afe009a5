/** Before each test file: properties draw from one seed, so that a run says the same twice; long runs draw anew. */

import fc from 'fast-check';

const { EVENRUN_LONG } = process.env;

// A property that names a seed of its own keeps it. One that fails prints its seed and path either way.
if (EVENRUN_LONG !== '1') fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: 20_261_129 });
