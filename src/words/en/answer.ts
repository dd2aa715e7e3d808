import type { Grade, TitleGain } from '../../core/gain/gain.ts'
import type { PartKind } from '../../core/part.ts'
import type { Wish } from '../../core/question.ts'
import type { Condition } from '../../core/shop.ts'
import type { Verdict } from '../../core/verdict.ts'
import type { Gloss } from '../gloss.ts'
import type { Forms } from '../say.ts'

type NoNumber = Extract<TitleGain, { grade: 'no number' }>['because']

const forms = (f: Forms): Forms => f

/**
 * The English of the answer mail. Figures are put in already formatted with their units. A second language is a
 * second table of this shape; a placeholder is never inflected. One letter, one file, so that it is translated whole.
 */
export const ANSWER_EN = {
  /** Small counts in running text, where no unit follows. */
  counts: [
    'none',
    'one',
    'two',
    'three',
    'four',
    'five',
    'six',
    'seven',
    'eight',
    'nine',
    'ten',
    'eleven',
    'twelve',
  ],
  verdicts: {
    fits: 'fits',
    'fits slower': 'fits slower',
    'fits after work': 'fits after work',
    "can't tell": 'can’t tell',
    'does not fit': 'does not fit',
  } satisfies Record<Verdict, string>,
  grades: {
    measured: { word: 'measured', says: 'We ran your games with your parts, and with the new ones.' },
    'half measured': {
      word: 'half measured',
      says: 'One of the two figures is our own run, the other is worked out.',
    },
    estimated: {
      word: 'estimated',
      says: 'We worked it out from runs of similar machines. Nobody has run this pair yet.',
    },
    'no number': { word: 'no number', says: 'We have no number we would stand behind.' },
  } satisfies Record<Grade, { word: string; says: string }>,
  kinds: {
    processor: 'processor',
    board: 'board',
    memory: 'memory kit',
    card: 'graphics card',
    supply: 'supply',
    case: 'case',
    cooler: 'cooler',
    drive: 'drive',
    fan: 'fan',
  } satisfies Record<PartKind, string>,
  conditions: { new: 'new', 'open box': 'open box', used: 'used' } satisfies Record<Condition, string>,
  /** Works by name; a work that the shop named itself stands under its own name. */
  works: {
    opening: 'Opening and closing the machine',
    'firmware update': 'Firmware update',
    'remove old modules': 'Taking the old modules out',
    'move front fan': 'Moving the front fan',
  } as Readonly<Record<string, string>>,
  wishes: {
    'keep the case': 'to keep the case',
    'no used parts': 'for no used parts',
    'no used supply': 'for no used supply',
  } satisfies Record<Wish, string>,
  setting: {
    size: '{width}×{height}, {preset}',
    rayTracing: 'ray tracing',
    upscaler: 'upscaler {mode}',
    frameGeneration: 'frame generation',
    cap: 'stopped at {fps}',
  },

  greeting: { named: 'Hello {name},', plain: 'Hello,' },
  asked: 'on {date} you asked:',
  quoted: '“{words}”',

  subject: {
    yes: forms({
      one: '{tag}: yes, {target}, for {price}',
      other: '{tag}: yes, {target} in {count} games, for {price}',
    }),
    partly: forms({
      one: '{tag}: {count} of {m} games reaches {target}, {price}',
      other: '{tag}: {count} of {m} games reach {target}, {price}',
    }),
    rise: '{tag}: {title} from {before} to {after}, {price}',
    riseShort: '{tag}: from {before} to {after}, for {price}',
    level: '{tag}: it fits and adds little, for {price}',
    pickWithoutNumber: '{tag}: it fits, for {price}',
    fact: '{tag}: one check, then we know',
    run: '{tag}: it fits; one run, then a number',
    games: '{tag}: which games do you play?',
    notWorth: '{tag}: keep your money for now, and why',
    nothing: '{tag}: nothing on our shelf fits, and why',
    reached: '{tag}: you already have {target}',
  },
  preheader: {
    pick: '{part} does it. What it costs, other roads, and what your board cannot take.',
    pickShort: 'What does it, what it costs, and what your board cannot take.',
    partly: 'What it costs, what stays below, and what your board cannot take.',
    fact: 'One missing fact decides. How to find it out is inside.',
    run: 'What fits, and which run of ours would tell what it is worth.',
    games: 'Tell us the games, and we can put numbers on it.',
    notWorth: 'What we looked at, what it would add, and what your board can take.',
    nothing: 'What stops each part, and what your board can take.',
    reached: 'What your games run at today, and what your board can take later.',
  },

  lead: {
    yes: 'Yes on average: {title} goes from {before} to {after}, for {price}.',
    partly: 'Partly: {title} goes from {before} to {after}, for {price}.',
    over: 'Not for {budget}. For {price}, {title} goes from {before} to {after}.',
    level: 'It fits and adds little: {title} stays near {after}, for {price}.',
    gainBack: 'You even get {amount} back: {title} goes from {before} to {after}.',
    withoutNumber: 'It fits, for {price}. What it adds, we cannot say yet.',
    fact: 'One missing fact decides. Tell us, and we can answer.',
    decides: 'It decides about {parts}. How to find out is below.',
    run: 'Something fits, and we have no number for your games yet.',
    games: 'Tell us which games you play, and we can put numbers on it.',
    notWorth: 'Nothing on our shelf is worth your money today.',
    nothing: 'Nothing on our shelf goes into this machine today.',
    reached: forms({
      one: 'Your game already averages {target} or more.',
      other: 'Your {count} games already average {target} or more.',
    }),
    fps: 'FPS means pictures a second.',
    allReach: forms({
      one: 'It then reaches {target}.',
      other: 'All {count} of your games then reach {target}.',
    }),
    someReach: forms({
      one: '{Count} of your {m} games then reaches {target}.',
      other: '{Count} of your {m} games then reach {target}.',
    }),
    bothReach: 'Both of your games then reach {target}.',
    neitherReaches: 'Neither of your games reaches {target}.',
    noneReach: forms({
      one: 'It does not reach {target}.',
      other: 'None of your {count} games reaches {target}.',
    }),
    slowMoments: 'In its slow moments it still drops to about {low}.',
    noSlowMoments: 'We have no figure for the slow moments.',
    keepMoney: 'Keep your money for now.',
    belowFloor: 'It fits, and we would not buy it.',
    oneRun: 'One run with your parts gives a number.',
    aboveBudget: 'That is above your {budget}.',
  },

  pick: {
    what: '{parts}, {condition}',
    fits: 'It goes into your machine as it is.',
    counted: 'The figures here already count it.',
    moreReasons: forms({ one: 'And one more reason.', other: 'And {count} more reasons.' }),
    withIt: 'It needs {parts} with it; that is in the price.',
    figures: {
      price: 'in all, fitted',
      work: 'in all',
      back: 'you get back',
      useful: 'useful gain',
      perHundred: 'gain for {hundred}',
    },
    useful: forms({
      one: 'Useful gain: what your display can show, in your game.',
      other: 'Useful gain: what your display can show, over your {count} games together.',
    }),
    usefulHz: forms({
      one: 'Useful gain: what your {hz} display can show, in your game.',
      other: 'Useful gain: what your {hz} display can show, over your {count} games together.',
    }),
    usefulNoDisplay: forms({
      one: 'Useful gain: what your game gains.',
      other: 'Useful gain: what your {count} games gain together.',
    }),
    usefulBetween: 'Four of five times it lands between {low} and {high}.',
    counts: 'The percent counts {n} of your {m} games. For {titles} we have no number.',
  },

  reply: {
    yes: 'Reply “yes, fit it”',
    yesSubject: '{tag}: yes, fit it',
    fact: 'Reply with the answer',
    factSubject: '{tag}: the fact you asked for',
    ask: 'Reply with a question',
    askSubject: '{tag}: a question',
    note: 'Or just answer this mail. Any question is welcome, and no answer is fine too.',
    text: 'To take it, reply “yes, fit it”. Any question is welcome, and no answer is fine too.',
    textFact: 'Answer this mail with it. Any question is welcome too.',
    textAsk: 'Any question is welcome: answer this mail.',
  },

  games: {
    head: 'In your games',
    average: 'Average FPS at {setting}.',
    averageMixed: 'Average FPS, each at the setting named.',
    titleAt: '{title}, {setting}',
    allGrade: {
      measured: 'All of it measured.',
      'half measured': 'All of it half measured.',
      estimated: 'All of it estimated.',
      'no number': '',
    } satisfies Record<Grade, string>,
    drawn: 'Thin bar: now. Thick bar: afterwards. The bracket under it: where four of five results land.',
    drawnToday: 'The bar is today.',
    drawnTarget: 'Dotted line: {fps} wanted.',
    drawnDisplay: 'Thin line: your {hz} display.',
    target: '{fps} wanted',
    display: '{hz} display',
    rise: 'From {before} to **{after}**, between {low} and {high} in four of five cases.',
    riseAgain: 'From {before} to **{after}** ({low} to {high}).',
    unseen: 'From {before} to **{after}** ({low} to {high}): no gain you can see.',
    slower: 'From {before} to **{after}** ({low} to {high}): slower than today.',
    same: 'It stays at **{after}**.',
    near: 'It stays near **{after}** ({low} to {high}).',
    today: 'Today **{before}**.',
    none: 'No number yet.',
    noneToday: 'Today **{before}**. For afterwards we have no number yet.',
    displayNote: 'Your display shows {shown} a second.',
    displayPart: 'Your display shows {shown} of them a second.',
    lowBoth: '{low}: from {before} to {after}.',
    lowSame: '{low}: {after}, as today.',
    lowToday: '{low}: {before} today.',
    lowAfter: '{low}: {after} afterwards.',
    low: '1%\u00a0low',
    lowGlossed: '1%\u00a0low (99 of 100 frames beat it)',
    grade: 'This one is {grade}.',
    otherMachine: 'Measured on another machine with these parts.',
    otherMachineAll: 'We measured on another machine with these parts.',
    disagrees: 'Our own runs of it do not agree. We run it again before you decide.',
    because: {
      'nothing fitted': 'We do not know all that is fitted.',
      'no run before': 'We never ran it with your parts.',
      'no run after': 'We never ran it with the new part.',
      'no run': 'We have never run it.',
      'too far apart': 'Our runs of it are too far apart to compare.',
    } satisfies Record<NoNumber, string>,
    wanted: 'One run with {parts} would give a number for {titles}.',
    wantedMany: 'One run of each with {parts} would give the numbers.',
    end: 'After the work we measure again and send you the result, promise kept or missed.',
  },

  price: {
    head: 'What it costs',
    condition: '{part}, {condition}',
    fitting: 'Fitting the {kind}',
    minutes: 'about {minutes}',
    tradeIn: 'Your old {part}, in exchange',
    warranty: forms({ one: '{count}\u00a0month of warranty', other: '{count}\u00a0months of warranty' }),
    pay: 'You pay',
    back: 'You get back',
    valid: 'This price is good until {date}.',
    tested: forms({
      one: 'We test your old part first. If it fails the test, the price is {price}.',
      other: 'We test your old parts first. If they all fail, the price is {price}.',
    }),
    stockOne: 'One on the shelf, and we don’t hold it.',
    stockMany: '{Count} on the shelf; we don’t hold them.',
    stockNone: 'It is not on the shelf today.',
    stockOf: '{part}: {count} on the shelf.',
    stockNotHeld: 'We don’t hold parts.',
    stockSold: 'If it is sold first, we write to you before any work.',
    stockSoldMany: 'If they are sold first, we write to you before any work.',
  },

  roads: {
    head: 'Other roads',
    headTwo: 'Two other roads',
    headLooked: 'What we looked at',
    what: '{parts}, {price}',
    back: '{parts}: you get {price} back',
    cheaper: 'Cheaper.',
    stronger: 'Stronger.',
    strongerOver: 'Stronger, and above your {budget}.',
    over: 'Above your {budget}.',
    gain: '{title} goes from {before} to {after} ({low} to {high}), {grade}.',
    same: '{title} stays at {after}, {grade}.',
    near: '{title} stays near {after} ({low} to {high}), {grade}.',
    missing: 'For {titles} we have no number.',
    slower: 'In {title} it is slower than today: from {before} to {after}.',
    notWorthSlower: 'It fits, and we would not buy it.',
    reach: forms({
      one: '{Count} of {m} games reaches {target}.',
      other: '{Count} of {m} games reach {target}.',
    }),
    reachBoth: 'Both games reach {target}.',
    reachAll: forms({ one: 'It reaches {target}.', other: 'All {count} games reach {target}.' }),
    reachNone: forms({ one: 'It does not reach {target}.', other: 'None reaches {target}.' }),
    notWorth: 'It fits, and we would not buy it: {delta} for {price}.',
    notWorthNothing: 'It fits, and we would not buy it: no gain you can see.',
    more: 'That is {delta} for {price} more.',
    notForThese: 'We would not buy it for these games.',
    level: 'For the money these two are level. One gives more, the other costs less.',
    withoutNumber: 'We have no number we would stand behind.',
    fits: 'It fits.',
  },

  board: {
    head: 'What your board can and cannot take',
    memory: '{type} memory, up to {max}',
    memorySlots: forms({
      one: 'Your board has one slot for it.',
      other: 'Your board has {count} slots for it.',
    }),
    memoryPlain: 'Your board takes that much.',
    memoryUnknown: 'More memory',
    memoryUnknownSays: 'We do not know how much your board takes.',
    cardRoom: 'Graphics cards up to {mm} long',
    cardRoomSays: 'Your case has that much room.',
    cardRoomMeasured: 'We measured that room in your case.',
    cardRoomUnknown: 'Long graphics cards',
    cardRoomUnknownSays: 'We never measured the free length in your case.',
    coolerRoom: 'Coolers up to {mm} high',
    coolerRoomSays: 'Your case has that much room.',
    lacking: 'It needs another {kinds}, and our shelf has none today.',
    wish: 'Left out because you asked {wish}: {parts}.',
    wishOther: 'Left out by your wish: {parts}.',
    sameFor: 'The same goes for {parts}.',
    more: forms({
      one: 'One more part from our shelf is not listed here. Just ask.',
      other: '{Count} more parts from our shelf are not listed here. Just ask.',
    }),
  },

  handsIn: {
    head: 'If you would rather fit it yourself',
    headMeasure: 'If you open it to look',
    parts: 'Then the parts cost {price}.',
    partsExchange: 'Then the parts cost {price}, or {net} in exchange for yours.',
    itemsHead: 'Before hands go inside',
    wayOut: 'Rather not? We do it in {minutes}, for {labour}.',
    wayOutPlain: 'Rather not? We do it for {labour}.',
    wayOutMeasure: 'Rather not? Bring it in, and we look.',
  },

  known: {
    head: 'How we know',
    explains: {
      measured: 'means that both figures come from our own runs.',
      'half measured': 'means that one figure is our own run and the other is worked out.',
      estimated: 'means worked out from runs of similar machines. Nobody has run that exact pair yet.',
      'no number': 'means that we have nothing we would stand behind.',
    } satisfies Record<Grade, string>,
    runs: 'The newest run with your parts is from {before}; with the new ones, from {after}.',
    runsToday: 'The newest run with your parts is from {before}.',
    interval: 'One run can be a little off. So we say between which two figures four of five results land.',
    regards: 'Kind regards,',
    sign: '{builder}, {shop}',
  },

  foot: {
    why: 'You get this mail because you asked us on {date}. It is an answer, not an advertisement.',
    loads: 'This mail loads nothing when you open it: no pictures, no tracking.',
    who: '{shop}, {address}.',
    reply: 'Reply to {email}.',
  },
  masthead: '{shop}, machine {tag}',
}

export type AnswerWords = typeof ANSWER_EN

/** Trade words that findings use, each with six words or fewer. */
export const GLOSSES_EN: readonly Gloss[] = [
  { firmware: 'the board’s start-up program' },
  { chipset: 'the board’s controller chip' },
  { socket: 'where the processor plugs in' },
  { 'MT/s': 'million transfers a second' },
  { 'GB/s': 'billion bytes a second' },
  { lanes: 'data roads to a card', lane: 'one data road to a card' },
  { PCIe: 'the card’s data road' },
  { channels: 'roads to memory', channel: 'a road to memory' },
  { modules: 'sticks of memory', module: 'one stick of memory' },
]
