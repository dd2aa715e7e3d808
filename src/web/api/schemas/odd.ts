import { z } from '@hono/zod-openapi'
import { ODD_KINDS, type OddGuess, type Reversal, SLIPS } from '../../../core/gain/odd/odd.ts'
import { instant, key, named, told } from '../describe.ts'

const fps = z.number().positive()
const [DIGIT, SLOWED, MEMORY, SETTING, TITLE, MACHINE, DRIVER, AGAIN, UNKNOWN] = ODD_KINDS

/** What may be wrong with a run, with what it names. */
const guess: z.ZodType<OddGuess> = named(
  'OddGuess',
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: told(z.literal(DIGIT), 'A slip of the hand.'),
      slip: z.enum(SLIPS),
      fps: told(fps, 'What was probably meant; absent where several would do.').optional(),
    }),
    z.strictObject({ kind: z.literal(SLOWED), side: z.enum(['processor', 'card']) }),
    z.strictObject({
      kind: told(z.literal(MEMORY), 'As if one channel had run, or the rate without its profile.'),
      channels: z.literal(1).optional(),
      rateMts: z.number().optional(),
    }),
    z.strictObject({ kind: z.literal(SETTING), settingId: key }),
    z.strictObject({ kind: z.literal(TITLE), titleId: key }),
    z.strictObject({ kind: z.literal(MACHINE), machineTag: key, cardId: key, processorId: key }),
    z.strictObject({
      kind: told(z.literal(DRIVER), 'Other runs of the card with it are off in the same way.'),
      driverVersion: z.string(),
      runIds: z.array(key),
    }),
    z.strictObject({ kind: told(z.literal(AGAIN), 'The other run of the same disagrees.'), runId: key }),
    z.strictObject({ kind: z.literal(UNKNOWN) }),
  ]),
)

/** A run that does not fit, as programs are told it. */
export const oddRun = named(
  'OddRun',
  z.strictObject({
    runId: key,
    averageFps: told(fps, 'What it says.'),
    expectedFps: told(fps, 'What all other runs say of it.'),
    lowFps: told(fps, 'Four of five such runs lie between this and highFps.'),
    highFps: fps,
    guesses: told(
      z.array(guess).min(1),
      'The likeliest first; a second one where it is at least half as likely.',
    ),
    agreeIds: told(z.array(key), 'Runs of the same day and machine that say the same.'),
    fine: told(z.number().min(0).max(1), 'Probability that nothing is wrong with it.'),
    says: told(z.array(z.string()).min(1), 'What does not fit, what would explain it and what to do.'),
    lookedAt: told(instant, 'Somebody looked, and it is so: it is not to be run again.').optional(),
  }),
)

export const reversal: z.ZodType<Reversal> = named(
  'Reversal',
  z.strictObject({
    titleId: key,
    settingId: key,
    slowerId: told(key, 'The part that is slower here and faster over all titles.'),
    fasterId: key,
    slowerFps: fps,
    fasterFps: fps,
    slowerRunIds: z.array(key),
    fasterRunIds: z.array(key),
    isFact: told(z.boolean(), 'Both sides were repeated on another day or machine.'),
  }),
)
