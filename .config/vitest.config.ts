import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('..', import.meta.url))

/** Tests of pages that open a database or a browser. */
const HELD = ['browser', 'databaseHeld', 'lineBreaks', 'onceOnly', 'statesOne', 'statesTwo'].map(
  (name) => `tests/web/${name}.test.ts`,
)

/** It puts a double in the place of a module of Node's, which other files must not meet. */
const APART = ['tests/uses/access/sameWork.test.ts']

/** They run a second time with a libSQL server between program and database. */
const REMOTE = ['store/nouns', 'store/money', 'store/takenBack', 'store/errors', 'uses/addMachine'].map(
  (name) => `tests/${name}.test.ts`,
)

/**
 * Five projects. Files of the first three share processes, which saves what each imports: 0.3 s a file, and 3 s where it is
 * all the program. `whole` opens databases, servers and browsers, and ends them after each test.
 */
export default defineConfig({
  root,
  test: {
    reporters: ['default', './.config/plain-close.ts'],
    silent: 'passed-only',
    setupFiles: ['./.config/seed.ts'],
    // By default one core is left idle, which on two cores doubles the time.
    maxWorkers: '100%',
    // It ends what hangs; a busy computer is a tenth as quick as an idle one, and more cases are drawn on purpose.
    testTimeout: 120_000 * Number(process.env.STILLFITS_RUNS ?? 1),
    hookTimeout: 300_000,
    projects: [
      {
        root,
        extends: true,
        test: {
          name: 'pure',
          include: [
            'tests/{core,words,input,paper,simulator}/**/*.test.{ts,tsx}',
            'tests/{boundaries,threats}.test.ts',
          ],
          isolate: false,
          benchmark: { include: ['tests/bench/**/*.bench.ts'] },
        },
      },
      {
        root,
        extends: true,
        test: {
          name: 'pages',
          include: ['tests/web/*.test.ts'],
          exclude: HELD,
          isolate: false,
          benchmark: { include: [] },
        },
      },
      {
        root,
        extends: true,
        test: {
          name: 'whole',
          globalSetup: ['./.config/prepared.ts'],
          include: [
            'tests/{store,uses,mail,cli,demo,operate}/**/*.test.{ts,tsx}',
            'tests/web/*/**/*.test.ts',
            ...HELD,
          ],
          exclude: APART,
          isolate: false,
          setupFiles: ['./.config/seed.ts', './.config/cleanUp.ts'],
          benchmark: { include: [] },
        },
      },
      {
        root,
        extends: true,
        test: {
          name: 'remote',
          globalSetup: ['./.config/prepared.ts'],
          env: { STILLFITS_TEST_STORE: 'remote' },
          include: REMOTE,
          isolate: false,
          setupFiles: ['./.config/seed.ts', './.config/cleanUp.ts'],
          benchmark: { include: [] },
        },
      },
      {
        root,
        extends: true,
        test: { name: 'apart', include: APART, benchmark: { include: [] } },
      },
    ],
  },
})
