import type { Forms } from '../say.ts'

/** What a shop has to do today beside its questions. */
export const DAY_EN = {
  head: 'Today',
  nothing: 'Nothing else is due.',
  due: '{what}, booked for {at}',
  late: '{what}, was booked for {at}',
  again: '{what}, to be looked at again',
  bench: '{what}: on the bench, measure what was promised',
  untold: '{what}: done, tell the owner',
  mails: {
    drafted: {
      one: '{n} message waits to be looked at and approved',
      other: '{n} messages wait to be looked at and approved',
    },
    held: {
      one: '{n} message may have arrived or not: say what you found',
      other: '{n} messages may have arrived or not: say what you found',
    },
    failed: { one: '{n} message did not get through', other: '{n} messages did not get through' },
  } satisfies Record<'drafted' | 'held' | 'failed', Forms>,
  toSettle: {
    one: '{n} yes in round {round} needs a look before it is put aside',
    other: '{n} yeses in round {round} need a look before they are put aside',
  } satisfies Forms,
  dealOver: {
    one: 'The date of deal {round} is over: {n} said yes. Buy, or call it off',
    other: 'The date of deal {round} is over: {n} said yes. Buy, or call it off',
  } satisfies Forms,
  odd: {
    one: '{n} run does not fit the others: run it again or say that it is so',
    other: '{n} runs do not fit the others: run them again or say that it is so',
  } satisfies Forms,
  stale: {
    one: '{n} price on the shelf is old',
    other: '{n} prices on the shelf are old',
  } satisfies Forms,
  wanted: '{n} customers could take {part}, there are not so many: see who gets what',
  warranty: 'Warranty of {part} ends on {date}',
  more: {
    one: '{n} more warranty ends this month',
    other: '{n} more warranties end this month',
  } satisfies Forms,
}
