import type { EndMark, Grade, TitleGain } from '../../core/gain/gain.ts'
import type { Forms } from '../say.ts'
import { ANSWER_NAMES_EN } from './answerNames.ts'
import { ANSWER_TOP_EN } from './answerTop.ts'
import { PACE_EN } from './pace.ts'

type NoNumber = Extract<TitleGain, { grade: 'no number' }>['because']

const forms = (f: Forms): Forms => f

/**
 * The English of the answer mail. Figures are put in already formatted with their units. A second language is a
 * second table of this shape; a placeholder is never inflected. It is translated whole, with the two tables
 * that stand in it.
 */
export const ANSWER_EN = {
  ...ANSWER_NAMES_EN,
  ...ANSWER_TOP_EN,
  games: {
    head: 'In your games',
    average: 'Average FPS at {setting}.',
    averageMixed: 'Average FPS, each at the setting named.',
    titleAt: '{title}, {setting}',
    /** Which of two figures is worked out. */
    half: {
      after: 'The figures of today are measured, those of afterwards worked out.',
      before: 'The figures of today are worked out, those of afterwards measured.',
    },
    allGrade: {
      measured: 'All of it measured.',
      'half measured': 'Of each two figures one is measured, the other worked out.',
      estimated: 'All of it estimated.',
      'no number': '',
    } satisfies Record<Grade, string>,
    /** The same where some games have none. */
    numberGrade: {
      measured: 'Every number here is measured.',
      'half measured': 'Of each two figures one is measured, the other worked out.',
      estimated: 'Every number here is estimated.',
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
    riseEstimated:
      'From {before} to **{after}**, estimated from runs of other machines: between {low} and {high} in four of five cases.',
    riseEstimatedAgain: 'From {before} to **{after}** ({low} to {high}), estimated.',
    unseenEstimated: 'From {before} to **{after}** ({low} to {high}), estimated: no gain you can see.',
    slowerEstimated: 'From {before} to **{after}** ({low} to {high}), estimated: slower than today.',
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
    low: 'Slow moments',
    lowGlossed: 'Slow moments (1%\u00a0low: 99 of 100 pictures come faster)',
    grade: 'This one is {grade}.',
    allHeld:
      'All of it measured, with the new processor in another machine. Yours holds it back, so the FPS may land below the ranges here. What we promise with each game holds all the same.',
    otherMachine: 'Measured on another machine with the same parts.',
    otherMachineAll: 'We measured on another machine with the same parts.',
    afterElsewhere: 'Afterwards: measured on another machine that has the new part.',
    afterElsewhereAll:
      'Today is measured on your machine. Afterwards is measured on another machine that has the new part.',
    pace: PACE_EN,
    marks: {
      old: 'That run is old, so we count it for less.',
      'other version': 'That run is of an older version of the game.',
      flagged: 'A run of it does not fit the others, so we run it again before we promise.',
    } satisfies Record<EndMark, string>,
    capped: 'Something stops it at that frame rate, so it may be more.',
    disagreeToday: 'Our two runs of today disagree: {low} and {high}.',
    disagreeAfter: 'Today {before}. Of afterwards our two runs disagree: {low} and {high}.',
    disagreePlain: 'Our runs of it disagree.',
    disagrees: 'We run it again before we promise.',
    because: {
      'nothing fitted': 'We do not know all that is fitted.',
      'no run before': 'We never ran it with your parts.',
      'no run after': 'We never ran it with the new part.',
      'no run': 'We never ran it, neither with your parts nor with the new ones.',
      'too far apart': 'Our runs of it are too far apart to compare.',
      'not told by runs': 'A run before the work and one after it would tell.',
      'unknown part': 'We never ran the new part, in anything.',
      'too uncertain': 'We know too little to put a number on it.',
    } satisfies Record<NoNumber, string>,
    wanted: 'A run with {parts} in a machine like yours would give a number for {titles}.',
    wantedMany: 'A run of each with {parts} in a machine like yours would give the numbers.',
    wantedToday: 'A run with your parts would give a number for {titles}.',
    wantedTodayMany: 'A run of each with your parts would give the numbers.',
    wantedOurs:
      'Such a run is ours to make, on our bench. It costs you nothing, and you need not order anything for it. Reply “please run it”, and we say when.',
    /** What they run at afterwards, where nothing is recommended. */
    afterwards: {
      roads: 'What they would run at afterwards stands with each part below.',
      same: 'Nothing changes, so these figures stay as they are.',
      fact: 'What they would run at afterwards, we tell you once the missing fact is known.',
      facts: 'What they would run at afterwards, we tell you once the missing facts are known.',
      run: 'What they would run at afterwards, nobody knows before that run.',
    },
    /** In place of the promise, where it is not known yet whether it goes in. */
    ifItFits:
      'These figures are for the case that it goes in. We promise them only when the missing fact is known.',
    end: 'After the work we measure again and write to you whether the promise held.',
    /** The one figure that counts when it is held against what is measured after the work. */
    promise: 'We promise at least {low}.',
    endMiss:
      'If a game stays below what we promise there, we talk about the price. Or you give the part back and get your money back.',
    /** The same where no part went in. */
    endMissWork: 'If a game stays below what we promise there, we look once more, at no cost.',
  },

  price: {
    head: 'What it costs',
    condition: '{part}, {condition}',
    fitting: 'Fitting the {kind}',
    minutes: 'about {minutes}',
    tradeIn: 'Minus your old {part}, which we keep',
    warranty: forms({ one: '{count}\u00a0month of warranty', other: '{count}\u00a0months of warranty' }),
    fee: 'Our fee',
    tax: 'Sales tax',
    taxRate: '{rate} of what is taxed',
    taxIncluded: 'Sales tax of {rate} is in these prices: {tax}.',
    pay: 'You pay',
    back: 'You get back',
    /** What the shop wrote of this very item. */
    note: '{note}',
    fittedFree: 'Fitting it is in this price.',
    /** In place of an amount that the shop has not set. */
    unpriced: 'no price yet',
    unpricedNote: 'What has no price yet comes on top. We name it before any work.',
    /** How long the work takes, and that the sum has it in. */
    workIn: 'The work takes about {minutes} in all; what it costs is in this sum.',
    valid: 'This price is good until {date}.',
    exchange: forms({
      one: 'If you keep {old}, it is {price}.',
      other: 'If you keep {old}, it is {price}.',
    }),
    tested: forms({
      one: 'We test {old} first. If it fails, or if you would rather keep it, the price is {price}.',
      other: 'We test {old} first. If they all fail, or if you would rather keep them, the price is {price}.',
    }),
    /** The words for that price. */
    keepReply: forms({
      one: 'To keep it, reply “yes, fit it, and I keep my old part”.',
      other: 'To keep them, reply “yes, fit it, and I keep my old parts”.',
    }),
    stockOne: 'One on the shelf, and we don’t hold it.',
    stockMany: '{Count} on the shelf; we don’t hold them.',
    stockNone: 'It is not on the shelf today.',
    stockOf: '{part}: {count} on the shelf.',
    stockNotHeld: 'We don’t hold parts.',
    stockSold: 'If it is sold first, we write to you before any work.',
    stockSoldMany: 'If they are sold first, we write to you before any work.',
  },

  /** A wanted title one slider lower: nothing to buy, measured. */
  lowered: {
    head: 'Without buying anything',
    headMixed: 'What you can do',
    lead: 'Try this first, it costs nothing: with lower {what}, {title} goes from {before} to {after}, measured.',
    word: 'costs nothing',
    what: '{title}: lower {what}',
    first: 'Try this first.',
    gain: 'With lower {what} it goes from {before} to {after} ({low} to {high}), measured.',
    gainAtLeast: 'With lower {what} it goes from {before} to {after}, measured at its cap.',
    reaches: 'That reaches {target}.',
    looks: 'It looks plainer: {what} one step lower, all else as it is.',
    elsewhere: 'We measured it on another machine with the same parts.',
  },

  roads: {
    head: 'Other roads',
    headTwo: 'Two other roads',
    headLooked: 'What we looked at',
    headNext: 'Above your budget',
    what: '{parts}, {price} {what}',
    back: '{parts}: you get {price} back',
    /** How to say yes to one of these. */
    reply: {
      cheaper: 'If you would rather have this, reply “yes, the cheaper one”.',
      stronger: 'If you would rather have this, reply “yes, the stronger one”.',
      first: 'If we should do this first, reply “yes, that first”.',
      over: 'If you want it all the same, reply “yes, this one”.',
      /** One of a few that are numbered. */
      looked: 'If you want this now, reply “yes, number {number}”.',
    },
    number: 'Number {number}.',
    /** Its price without what is taken in exchange, and the words for that. */
    keep: forms({
      one: 'If you keep {old}, it is {price}. For that, add “and I keep my old part”.',
      other: 'If you keep {old}, it is {price}. For that, add “and I keep my old parts”.',
    }),
    cheaper: 'Cheaper.',
    stronger: 'Stronger.',
    strongerOver: 'Stronger, and above your {budget}.',
    over: 'Above your {budget}.',
    gain: '{title} goes from {before} to {after} ({low} to {high}), {grade}.',
    same: '{title} stays at {after}, {grade}.',
    near: '{title} stays near {after} ({low} to {high}), {grade}.',
    missing: 'For {titles} we have no number.',
    unsure: 'Our runs of {titles} disagree. We run it again before we promise.',
    slower: 'In {title} it is slower than today: from {before} to {after}.',
    slowerIn: 'In {title} that is slower than today.',
    notWorthSlower: 'It fits, and we would not buy it.',
    reach: forms({
      one: '{Count} of {m} games averages {target} or more{surely}.',
      other: '{Count} of {m} games average {target} or more{surely}.',
    }),
    reachBoth: 'Both games average {target} or more{surely}.',
    reachAll: forms({
      one: 'It averages {target} or more{surely}.',
      other: 'All {count} games average {target} or more{surely}.',
    }),
    reachMay: forms({
      one: '{Count} of {m} games may reach {target} or stay below it.',
      other: '{Count} of {m} games may reach {target} or stay below it.',
    }),
    reachNone: forms({ one: 'It does not reach {target}.', other: 'None reaches {target}.' }),
    notWorth: 'It fits, and we would not buy it: {delta} more in {title}, for {price}.',
    /** Where the display shows less of it than the game gains. */
    notWorthShown:
      'It fits, and we would not buy it. Of what {title} gains, your {hz} display can show {delta}, for {price}.',
    notWorthEstimated: 'It fits, and we would not buy it: an estimated {delta} more in {title}, for {price}.',
    notWorthShownEstimated:
      'It fits, and we would not buy it. Of what {title} gains, your {hz} display can show an estimated {delta}, for {price}.',
    notWorthNothing: 'It fits, and we would not buy it: no gain you can see.',
    /** The same of what may not go in. */
    unclear: {
      slower: 'We would not buy it, even if it goes in.',
      notWorth: 'Even if it goes in, we would not buy it: {delta} more in {title}, for {price}.',
      notWorthShown:
        'Even if it goes in, we would not buy it. Of what {title} gains, your {hz} display can show {delta}, for {price}.',
      notWorthEstimated:
        'Even if it goes in, we would not buy it: an estimated {delta} more in {title}, for {price}.',
      notWorthShownEstimated:
        'Even if it goes in, we would not buy it. Of what {title} gains, your {hz} display can show an estimated {delta}, for {price}.',
      notWorthNothing: 'Even if it goes in, we would not buy it: no gain you can see.',
    },
    more: 'In {title} that is {delta} more, for {price} more.',
    notForThese: 'We would not buy it for these games.',
    level: 'For the money these two are level. One gives more, the other costs less.',
    withoutNumber: 'We have no number we would stand behind.',
    fits: 'It fits.',
  },

  board: {
    head: 'What your machine can and cannot take',
    memory: '{type} memory, up to {max}',
    memorySlots: forms({
      one: 'Your board has one slot for it.',
      other: 'Your board has {count} slots for it.',
    }),
    memoryPlain: 'Your board takes that much.',
    memorySplit: '{type} memory',
    memorySplitPage: 'Up to {max} by the board’s page; how it is split over the slots, we check.',
    memorySplitSays: 'Up to {max}; how it is split over the slots, we check.',
    noneOfKind: {
      processor: 'No processor on our shelf fits your board.',
      memory: 'No memory kit on our shelf fits your board.',
      card: 'No graphics card on our shelf fits your machine.',
    },
    /** What this board never takes, whatever the shelf has. */
    never: 'Processors for another socket than {socket}, and memory other than {type}',
    neverSocket: 'Processors for another socket than {socket}',
    neverMemory: 'Memory other than {type}',
    neverSays: 'Only another board changes that.',
    /** Where no part is ruled out. */
    noneOut: 'Of the parts on our shelf, none is ruled out.',
    memoryUnknown: 'More memory',
    memoryUnknownSays: 'We do not know how much your board takes.',
    cardRoom: 'Graphics cards up to {mm} long',
    /** Where a fan stands in front that can be moved. */
    cardRoomFree: 'Graphics cards up to {mm} long, and up to {free} with the front fan moved',
    cardRoomSays: 'Your case has that much room.',
    cardRoomMeasured: 'We measured that room in your case.',
    /** Where the part that is recommended needs it. */
    cardRoomMoved: 'We move that fan for the card above, so it goes in.',
    cardRoomUnknown: 'Long graphics cards',
    cardRoomUnknownSays: 'We never measured the free length in your case.',
    /** One that is shorter goes in: the machine shows it. */
    cardRoomBeyond: 'Graphics cards longer than {mm}',
    cardRoomBeyondSays: 'Up to {mm} goes in; whether a longer one does, we never measured.',
    /** A part with what it costs, as the head of its row and among others. */
    priced: '{part}, {price} in all',
    pricedAmong: '{part} ({price})',
    /** The same where an old part is taken in exchange. */
    pricedExchange: forms({
      one: '{part}, {price} in all if we keep {old}',
      other: '{part}, {price} in all if we keep {old}',
    }),
    pricedExchangeAmong: forms({
      one: '{part} ({price} if we keep {old})',
      other: '{part} ({price} if we keep {old})',
    }),
    back: '{part}: you get {price} back',
    backAmong: '{part} (you get {price} back)',
    /** What the prices of the list hold. */
    prices: 'Prices in this list are in all, fitting included.',
    coolerRoom: 'Coolers up to {mm} high',
    coolerRoomSays: 'Your case has that much room.',
    lacking: 'It needs another {kinds}, and our shelf has none today. So we name no price.',
    wish: 'Left out because you asked {wish}: {parts}.',
    wishOther: 'Left out by your wish: {parts}.',
    sameFor: 'The same goes for {parts}.',
    withIt: 'It needs {parts} with it; that is in the price.',
    sure: 'If you would rather not look: with {parts} it goes in, for {price} in all.',
    /** Work that nobody has looked into yet. */
    checkFirst: 'Some work may help too: {works}. Whether yours needs it, we have not looked yet.',
    checkFree: '{work} (costs nothing)',
    checkMore: forms({ one: 'one more', other: '{count} more' }),
    /** Before what a part gains that may not go in. */
    ifIn: 'If it goes in:',
    /** Why a part has no frame rates. */
    noFps: {
      'nothing fitted': 'No FPS yet: we do not know all that is fitted.',
      'no run before': 'No FPS yet: we never ran your games with your parts.',
      'no run after': 'No FPS yet: we never ran your games with it.',
      'no run': 'No FPS yet: we never ran your games, neither with your parts nor with it.',
      'too far apart': 'No FPS yet: our runs are too far apart to compare.',
      'not told by runs': 'No FPS yet: a run before the work and one after it would tell.',
      'unknown part': 'No FPS yet: we never ran it, in any game.',
      'too uncertain': 'No FPS yet: we know too little for a number.',
    } satisfies Record<NoNumber, string>,
  },

  /** What comes out and what stays, where no price line tells it. */
  out: {
    kept: '{Old} comes out. You keep it, and we pay nothing for it.',
    keptMany: '{Old} come out. You keep them, and we pay nothing for them.',
    memoryStays: 'The memory that is in it now stays in.',
    /** Nobody wrote down what memory is in it. */
    memoryUnknown:
      'Which memory is in it now, we have not written down. With slots to spare it stays in, else it comes out; it is yours either way.',
  },

  handsIn: {
    head: 'If you would rather fit it yourself',
    headMeasure: 'If you open it to check something',
    needNot: 'You need not do this now. What you find helps with a later answer.',
    parts: 'Then you pay for the parts without fitting: {price}.',
    partsExchange: 'Then you pay for the parts without fitting: {price}, or {net} if we keep {old}.',
    partsSame: 'That costs the same: {price}.',
    ours: 'Not by yourself: {works}. We do that first, for {price}; with it you pay {sum}.',
    oursExchange:
      'Not by yourself: {works}. We do that first, for {price}; with it you pay {sum}, or {net} if we keep {old}.',
    /** How to say yes to that. */
    reply: 'If you want that, reply “yes, I fit it myself”.',
    /** The same where two prices stand there, each with its words. */
    replyExchange: forms({
      one: 'For {price}, reply “yes, I fit it myself, and I keep my old part”. For {net}, reply “yes, I fit it myself, and you keep my old part”.',
      other:
        'For {price}, reply “yes, I fit it myself, and I keep my old parts”. For {net}, reply “yes, I fit it myself, and you keep my old parts”.',
    }),
    compare: 'Afterwards you tell us the FPS you see, and we compare.',
    /** Works that go with it and are for the owner then. */
    own: 'This is then also yours to do: {works}.',
    /** Where more than one part goes in. */
    all: 'You then fit all of this: {parts}.',
    itemsHead: 'Before you open the case',
    wayOut: 'Rather not? We do it, in about {minutes}. The {labour} for that is in the price above.',
    wayOutPlain: 'Rather not? We do it. The {labour} for that is in the price above.',
    wayOutFree: 'Rather not? We do it, in about {minutes}, at no extra cost.',
    wayOutFreePlain: 'Rather not? We do it, at no extra cost.',
    wayOutMeasure: 'Rather not? Bring it to our shop, and we look.',
  },

  known: {
    head: 'How we know',
    explains: {
      measured: 'means that both figures come from our own runs, and none is worked out.',
      'half measured':
        'means that one figure is our own run and the other is estimated, worked out from others.',
      estimated: 'means worked out from runs of similar machines. Nobody has run that exact pair yet.',
      'no number': 'means that we have nothing we would stand behind.',
    } satisfies Record<Grade, string>,
    runs: 'The newest run with your parts is from {before}; with the new ones, from {after}.',
    runsOneDay: 'The newest runs, with your parts and with the new ones, are from {before}.',
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
