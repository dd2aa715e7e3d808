import type { Forms } from '../say.ts'

const forms = (f: Forms): Forms => f

/** The list of rounds with the form for a new one. */
export const ROUND_LIST_EN = {
  head: 'Rounds',
  title: 'Rounds of offers',
  about: 'A round writes to previous customers about what you have, each with their own numbers.',
  none: 'No round yet. Make one of a finished matching, or of one item below.',
  line: '{asked} asked, {yes} said yes',
  lineDropped: 'Nobody was asked',
  lineDraft: forms({ one: '{asked} customer would be asked', other: '{asked} customers would be asked' }),
  deal: 'before it is bought',
  new: 'A new round',
  all: 'All rounds',
  make: 'Offer one item or one deal',
  noItems:
    'Nothing can be offered: no processor, memory kit, card or board is free on the shelf or on the list of what could be bought.',
  of: 'What is offered',
  shelfChoice: '{part} ({id}), {price}, {n} free',
  dealChoice: '{part} ({id}), not bought yet, {price}',
  pieces: 'How many pieces',
  piecesHint: 'No more than this go to customers of this round.',
  overOffer: 'Offers for each piece',
  overOfferHint: 'Who says yes first gets one, and the mail says how many there are and how many are asked.',
  valid: 'The offer holds for',
  days: 'days',
  quiet: 'Leave out who heard from you within',
  tags: 'Only these machines',
  tagsHint: 'Tags, parted by commas. Empty: whoever gains most.',
  cost: 'What a piece costs you',
  costHint: 'If you say it, the result tells what you earned.',
  dealHead: 'Only for a part that is not bought yet',
  dealHint:
    'People are asked first. If enough say yes by the end, you buy it; if not, you call it off and tell them.',
  price: 'You sell it for',
  wanted: 'Yeses that make it worth buying',
  wantedHint: 'No more than the pieces. Empty: as many.',
  start: 'Work out the offers',
  needOf: 'Choose what is offered.',
  needPieces: 'Say how many pieces.',
  needValid: 'Say for how many days the offer holds.',
  sure: 'Make it all the same',
  boughtSure: 'Put them aside all the same',
}

/** What is wrong with a new round, or unwise. */
export const ROUND_ASK_EN = {
  noItem: 'Choose a shelf item (S-601) or a part that could be bought (F-0001).',
  noGain: 'It makes no game faster, so nobody gains by it. Choose a processor, memory, card or board.',
  noneFree: 'None of it is free now.',
  tooMany: forms({ one: 'Only one of it is free now.', other: 'Only {free} of it are free now.' }),
  onlyDeals:
    'This is only for a part that is not bought yet. Leave it empty: what stands on the shelf has its price.',
  needPrice: 'Say what you sell it for.',
  noTag: 'There is no machine with this tag. Tags look like M-0042; part them by commas.',
  nobodys: 'This machine belongs to no customer, so nobody can be asked about it.',
  yesesOverPieces: forms({
    one: 'You would buy one piece, so no more than one yes can be wanted.',
    other: 'You would buy {pieces} pieces, so no more than {pieces} yeses can be wanted.',
  }),
  yesesOverNamed: forms({
    one: 'Only one machine is named, so no more than one yes can be wanted.',
    other: 'Only {named} machines are named, so no more than {named} yeses can be wanted.',
  }),
  loss: 'A piece costs you {cost} and is sold for {price}: you lose by each. Tick this, or change one of the two.',
  boughtLoss:
    'A piece cost you {cost} and was offered for {price}: you lose by each. Tick this, or correct what a piece cost.',
  mayLose:
    'It was seen for up to {seen}, and you would sell it for {price}: you may lose by each. Tick this, change the price, or say what a piece costs you.',
}
