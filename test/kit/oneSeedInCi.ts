import fc from 'fast-check';

/** What lands must not hang on luck: there every property takes the same cases each time, everywhere else new ones. */
if (process.env.CI === 'true') fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: 1 });
