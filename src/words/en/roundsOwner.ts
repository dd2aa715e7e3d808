import type { Forms } from '../say.ts'

const forms = (f: Forms): Forms => f

/** What owners read of a round beside its mail: the page behind the link, and what becomes of a part that was not bought. */
export const ROUND_OWNER_EN = {
  title: 'An offer for your {tag}',
  from: 'From {shop}',
  ask: 'Do you want it?',
  yes: 'Yes, put it aside for me',
  yesDeal: 'Yes, count me in',
  no: 'No, thank you',
  until: 'The offer holds until {date}.',
  stock: 'There are {left} left; {asked} owners were asked.',
  stockYours: forms({
    one: 'There is one, and nobody else was asked.',
    other: 'There are {left}, and nobody else was asked.',
  }),
  stockLast: 'There is one left; {asked} owners were asked. Who says yes first gets it.',
  yesMeans:
    'A yes puts it aside for you at once, and we write to you with a day. You can change your mind until it is on the bench.',
  dealLine: forms({
    one: 'We don’t have it yet. We buy it if {wanted} owner says yes by {date}; {count} did so far.',
    other: 'We don’t have it yet. We buy it if {wanted} owners say yes by {date}; {count} did so far.',
  }),
  dealNone: forms({
    one: 'We don’t have it yet. We buy it if {wanted} owner says yes by {date}; nobody did so far.',
    other: 'We don’t have it yet. We buy it if {wanted} owners say yes by {date}; nobody did so far.',
  }),
  dealMeans:
    'A yes counts you in. If we buy it, one is put aside for you in the order of the yeses. If we don’t, nothing happens and we tell you.',
  held: 'It is yours: put aside for you.',
  heldMore: 'No day is set yet: we write to you with one.',
  heldDay: 'Your day is {when}.',
  counted: 'You are counted in.',
  countedMore: 'By {date} we know whether we buy it. Then we write to you either way.',
  tooLate: 'It is gone: somebody else was first.',
  tooLateMore:
    'Nothing was ordered, and you owe nothing. Your yes is written down: if one comes back, the shop asks you in the order of the yeses.',
  inLine: 'You are in line.',
  dealFull: 'Your yes is written down, but as many owners as we could buy for said yes before you.',
  toSettle: 'Your yes is written down, and the shop looks at it.',
  toSettleMore:
    'Something about your machine changed since we wrote. We write to you before anything is done.',
  saidNo: 'Thank you for telling us. Nothing happens.',
  saidNoMore: 'If you change your mind while it is there, say yes below.',
  letGo: 'Your yes is taken back. Nothing is put aside for you, and you owe nothing.',
  done: 'The parts are in your machine.',
  underWay: 'The work has begun. If something is wrong, reply to our mail.',
  gone: 'It is gone.',
  goneMore: 'Somebody else was first. There is nothing to do, and you owe nothing.',
  over: 'This offer is over.',
  overMore: 'It held until {date}. Reply to our mail, and we look again at what there is.',
  endedMore: 'We ended it on {date}. Reply to our mail, and we look again at what there is.',
  calledOff: 'We did not buy it.',
  calledOffMore: 'Nothing was ordered, and you owe nothing.',
  calledOffFew: 'Too few owners wanted it. Nothing was ordered, and you owe nothing.',
  back: 'I changed my mind: give it back',
  backDeal: 'I changed my mind: don’t count me in',
  backLine: 'I changed my mind: take my yes back',
  againHead: 'One came back',
  again: 'Say yes again',
  games: 'What it does in your games',
  price: 'What it costs',
  mail: {
    deal: forms({
      one: 'We don’t have it yet. We ask {asked} owners, and buy in if at least {wanted} of them says yes by {date}.',
      other:
        'We don’t have it yet. We ask {asked} owners, and buy in if at least {wanted} of them say yes by {date}.',
    }),
    dealYou: 'We don’t have it yet. We ask only you, and buy it if you say yes by {date}.',
    dealYesNote:
      'It opens a page with everything once more. Only a yes there counts. What we buy is set aside in the order of the yeses; then we write to you with a day.',
    dealYesNoteYou:
      'It opens a page with everything once more. Only a yes there counts. If we buy it, it is set aside for you and we write to you with a day.',
    dealSecond:
      'If we don’t buy it, or not enough for all, nothing happens and you hear of it. A yes costs nothing, and you can take it back until the work begins.',
    dealSecondYou:
      'If we don’t buy it after all, nothing happens and you hear of it. A yes costs nothing, and you can take it back until the work begins.',
    boughtFewer: forms({
      one: 'We bought only one of this: {what}. Somebody who said yes before you gets it.',
      other: 'We bought only {count} of this: {what}. Those who said yes before you get them.',
    }),
    notBoughtSubject: '{tag}: we did not buy it, nothing is owed',
    notBought:
      'We asked you about {what}. We decided not to buy it. The reason lies with us, not with you or your machine.',
    notBoughtFew: 'We asked you about {what}. We did not buy it: too few owners wanted one.',
    notBoughtWhy: 'You get this mail because you said yes to it on {date}. It is the answer to your yes.',
  },
}

export type RoundOwnerWords = typeof ROUND_OWNER_EN
