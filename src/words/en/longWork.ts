import type { WorkState } from '../../core/longWork.ts'

/** Work that takes longer than a page waits, whatever it is about. */
export const LONG_WORK_EN = {
  states: {
    waiting: 'waits for its turn',
    'under way': 'is being worked out',
    done: 'done',
    'called off': 'called off',
    failed: 'failed',
  } satisfies Record<WorkState, string>,
  look: 'Look again',
  callOff: 'Call it off',
  calledOff: 'It was called off. Nothing was kept but what was asked.',
  failed:
    'Something broke on our side, so there is no result. Ask again; if it fails again, the log names the place.',
  forget: 'Take it off the list',
  forgetSure: 'What was asked and what came out are gone for good then.',
  forgetYes: 'Yes, take it away',
}
