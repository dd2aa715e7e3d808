import type { Forms } from '../say.ts'

const forms = (f: Forms): Forms => f

/** The answer mail from its subject to how to reply: what is recommended, for how much, and how to say yes. */
export const ANSWER_TOP_EN = {
  greeting: { named: 'Hello {name},', plain: 'Hello,' },
  asked: 'on {date} you asked:',
  /** With what the figures are held against. */
  askedFor: 'on {date} you asked (wanted: at least {target}):',
  askedForMoney: 'on {date} you asked (wanted: at least {target}, for about {budget}):',
  quoted: '“{words}”',

  subject: {
    yes: forms({
      one: '{tag}: yes, {target}, for {price}',
      other: '{tag}: yes, {target} in {count} games, for {price}',
    }),
    yesEstimated: forms({
      one: '{tag}: by our estimate {target}, for {price}',
      other: '{tag}: estimated {target} in {count} games, {price}',
    }),
    yesProbably: forms({
      one: '{tag}: most likely {target}, for {price}',
      other: '{tag}: likely {target} in {count} games, {price}',
    }),
    partly: forms({
      one: '{tag}: {count} of {m} games reaches {target}, {price}',
      other: '{tag}: {count} of {m} games reach {target}, {price}',
    }),
    rise: '{tag}: {title} from {before} to {after}, {price}',
    riseShort: '{tag}: from {before} to {after}, for {price}',
    level: '{tag}: it fits and adds little, for {price}',
    pickWithoutNumber: '{tag}: it fits, for {price}',
    over: '{tag}: nothing for {budget}; {before} to {after} for {price}',
    overShort: '{tag}: nothing for {budget}, something for {price}',
    overBudget: '{tag}: nothing worth it for {budget}',
    namedNotWorth: '{tag}: we would not buy that one',
    fact: forms({ one: '{tag}: one check, then we know', other: '{tag}: {count} checks, then we know' }),
    run: '{tag}: it fits; one run, then a number',
    games: '{tag}: which games do you play?',
    notWorth: '{tag}: keep your money for now',
    nothing: '{tag}: nothing on our shelf goes in today',
    emptyShelf: '{tag}: our shelf is empty today',
    reached: '{tag}: you already average {target}',
  },
  preheader: {
    pick: '{part} does it. What it costs, other roads, and what your board cannot take.',
    pickShort: 'What does it, what it costs, and what your board cannot take.',
    partly: 'What it costs, what stays below, and what your board cannot take.',
    fact: forms({
      one: 'One missing fact decides. How to find it out is inside.',
      other: '{Count} missing facts decide. How to find them out is inside.',
    }),
    factOurs: 'We look up what is missing and write to you. What your board can take is inside.',
    run: 'What fits, and which run of ours would tell what it is worth.',
    games: 'Tell us the games, and we can put numbers on it.',
    notWorth: 'What we looked at, what it would add, and what your board can take.',
    overBudget: 'What the next step would cost, and what your board can take.',
    nothing: 'What stops each part on our shelf, and what your machine does take.',
    reached: 'What your games run at today, and what your board can take later.',
  },

  lead: {
    estimatedYes: 'By our estimate yes: {title} goes from {before} to {after}, for {price}.',
    probablyYes: 'Most likely yes: {title} goes from {before} to {after}, for {price}.',
    /** Behind what is reached, where four of five results do not all lie there. */
    inMostCases: ', most likely',
    onAverage: ', by the middle of the range',
    yes: 'Yes on average: {title} goes from {before} to {after}, for {price}.',
    partly: 'Partly: {title} goes from {before} to {after}, for {price}.',
    over: 'For {price}, {title} goes from {before} to {after}.',
    inBudget: 'For {budget}: with {parts}, {title} goes from {before} to {after}.',
    budgetNothing: 'For {budget} nothing on our shelf adds enough to be worth it.',
    budgetUnsure: 'For {budget} we know of nothing on our shelf that is worth it.',
    level: 'It fits and adds little: {title} stays near {after}, for {price}.',
    gainBack: 'You even get {amount} back: {title} goes from {before} to {after}.',
    withoutNumber: 'It fits, for {price}. What it adds, we cannot say yet.',
    fact: forms({
      one: 'One missing fact decides. Tell us, and we can answer.',
      other: '{Count} missing facts decide. Tell us, and we can answer.',
    }),
    factOurs: forms({
      one: 'One missing fact decides. We look it up and write to you.',
      other: '{Count} missing facts decide. We look them up and write to you.',
    }),
    factsMixed: forms({
      other: '{Count} missing facts decide. Tell us what you can see, and we look up the rest.',
    }),
    factNamed: 'One missing fact decides: {fact}. Tell us, and we can answer.',
    /** Where it would still have no number. */
    factNamedFit: 'One missing fact decides whether it goes in: {fact}. What it adds, only a run can say.',
    factsNamed: '{Count} missing facts decide: {facts}. Tell us, and we can answer.',
    factsOursNamed: '{Count} missing facts decide: {facts}. We look them up and write to you.',
    /** Some are the owner's to tell, the others the shop's to look up. */
    factsShared: '{Count} missing facts decide. From you we need: {yours}. We look up {ours}.',
    factOf: 'figures of {part}',
    factOursNamed: 'One missing fact decides: {fact}. We look that up and write to you.',
    decides: forms({
      one: 'It decides whether this goes in: {parts}.',
      other: 'They decide whether this goes in: {parts}.',
    }),
    decidedPrice: 'If it goes in, it costs {price} {what}.',
    /** Several things, each with its price. */
    decidedEach: '{parts} ({price})',
    decidedPrices: 'Each price is in all, fitting included.',
    noPromiseYet: 'Until then we promise no FPS.',
    howBelow: 'How to find out is below, with the part.',
    howTo: 'This is how.',
    /** The way without the fact, where several parts wait for one. */
    sure: 'If you would rather not look: with {parts}, {part} goes in, for {price} in all.',
    /** Where somebody else sells what the owner asks about. */
    ownPart: 'If you get {part} elsewhere, our work alone is {price}.',
    readFirst: 'First shut down and pull the mains plug.',
    bringIt: 'Or bring it to our shop: we look.',
    sameName: forms({ other: '{parts} ({count} on our shelf)' }),
    runAgain: forms({
      one: 'A run of {titles} does not fit the others. We run it again before we promise there.',
      other: 'Runs of {titles} do not fit the others. We run them again before we promise there.',
    }),
    run: 'Parts from our shelf fit, but we have no number for your games yet.',
    /** Where it is one thing. */
    runNamed: '{parts} goes in, for {price}, but we have no number for your games yet.',
    games: 'Tell us which games you play, and we can put numbers on it.',
    notWorth: 'Nothing on our shelf adds enough to be worth your money today.',
    /** The next step above the budget: told, not offered. */
    nextStep: 'The next step would cost {price} {what}. That is {parts}.',
    nextAsk: 'If you want that all the same, reply “yes, this one”.',
    nextGain: '{title} would then go from {before} to {after}.',
    named: {
      slower: '{part}, {price}: not for {title}. It would go from {before} to {after} there.',
      notWorth: '{part}: we would not buy it. {title} goes from {before} to {after}, for {price}.',
      near: '{part}: we would not buy it. {title} stays near {after}, for {price}.',
      gain: '{part}: {title} goes from {before} to {after}, for {price}.',
      above: 'That is above your {budget}.',
      withoutNumber: '{part} goes in, for {price}. What it adds, we cannot say yet.',
      unclear: '{part}, {price} if it goes in: we can’t tell yet. What is missing is below.',
      wish: '{part}: left out because you asked {wish}.',
      out: '{part}: {verdict}.',
      /** Behind why: what nobody worked out for it. */
      outNoFigures: 'So we have worked out no price and no FPS for it.',
    },
    roadEnd: 'Your {chipset} board ends at the {generation} generation.',
    roadEndSame: 'Your {chipset} board ends at the {generation} generation, like this processor.',
    nothing: 'None of the parts on our shelf today goes into your machine.',
    emptyShelf: 'Our shelf is empty today, so there is nothing we could fit.',
    nothingTakes: 'What it does take, whatever our shelf has, stands below.',
    reached: forms({
      one: 'Your game already averages {target} or more.',
      other: 'Your {count} games already average {target} or more.',
    }),
    reachedEstimated: forms({
      one: 'By our estimate your game already averages {target} or more.',
      other: 'By our estimate your {count} games already average {target} or more.',
    }),
    fps: 'FPS means pictures a second.',
    allReach: forms({
      one: 'It then averages {target} or more{surely}.',
      other: 'All {count} of your games then average {target} or more{surely}.',
    }),
    someReach: forms({
      one: '{Count} of your {m} games then averages {target} or more{surely}.',
      other: '{Count} of your {m} games then average {target} or more{surely}.',
    }),
    namedReach: forms({
      one: '{titles} then averages {target} or more{surely}.',
      other: '{titles} then average {target} or more{surely}.',
    }),
    already: forms({
      one: '{titles} averages {target} or more today.',
      other: '{titles} average {target} or more today.',
    }),
    bothReach: 'Both of your games then average {target} or more{surely}.',
    neitherReaches: 'Neither of your games reaches {target}.',
    noneReach: forms({
      one: 'It does not reach {target}.',
      other: 'None of your {count} games reaches {target}.',
    }),
    /** Games whose estimate lies around the target. */
    onlyMay: forms({
      one: '{titles} may reach {target} or stay below it, so we do not promise {target} there.',
      other: '{titles} may reach {target} or stay below it, so we do not promise {target} there.',
    }),
    moreMay: forms({
      one: '{titles} may reach that or stay below it, so we do not promise {target} there.',
      other: '{titles} may reach that or stay below it, so we do not promise {target} there.',
    }),
    mayEach: '{title} ({range})',
    /** Where the range reaches below what is wanted. */
    lowEnd: 'In {title} we expect {after}, but it may be less: we promise at least {low}.',
    below: '{title} stays below, at {after}.',
    belowMany: 'Below it stay {titles}.',
    belowEach: '{title} at {after}',
    belowMore: forms({ one: 'one more', other: '{count} more' }),
    noNumberFor: 'For {titles} we have no number yet.',
    slowMoments: forms({
      one: 'That is an average, not held all the time: in slow moments it drops to about {low}.',
      other: 'These are averages, not held all the time: in slow moments {title} drops to about {low}.',
    }),
    noSlowMoments: forms({
      one: 'We have no figure for the slow moments.',
      other: 'We have no figure for the slow moments of {title}.',
    }),
    keepMoney: 'Keep your money for now.',
    belowFloor: 'It fits, and we would not buy it.',
    oneRun: 'A run of ours would give one. It costs you nothing, and you need not order anything for it.',
    aboveBudget: 'That is above your {budget}.',
  },

  pick: {
    what: '{parts}, {condition}',
    fits: 'It goes into your machine as it is.',
    /** Where the least free length that is known is enough. */
    fitsAsLong: 'It is {mm} long, and at least {room} are free in your case.',
    fitsWith: 'It goes in with {parts}; that is in the price.',
    moreReasons: forms({ one: 'And one more reason.', other: 'And {count} more reasons.' }),
    counted: 'The figures here already count it.',
    /** Beside the next two: what else is told is counted. */
    countedRest: 'All else said here is in the figures already.',
    elsewhere:
      'That is not in the figures: we measured on a machine that does not hold it back. Yours may give fewer FPS than we expect.',
    elsewhereEstimated:
      'That is not in the figures: they come from machines that do not hold it back. Yours may give fewer FPS than we expect.',
    withIt: 'It needs {parts} with it; that is in the price.',
    figures: {
      price: 'in all, fitting included',
      priceExchange: forms({
        one: 'in all, fitting included, if we keep {old}',
        other: 'in all, fitting included, if we keep {old}',
      }),
      work: 'in all',
      back: 'you get back',
      useful: 'in pictures you can see',
      usefulOf: 'in pictures you can see, on average over {count} games',
      /** Behind a price: work that the shop has not priced. */
      unpriced: ', and on top {works}, which has no price yet',
    },
    useful: forms({
      one: 'That is in your game, up to what your display can show.',
      other: 'That is over your {count} games together, up to what your display can show.',
    }),
    usefulHz: forms({
      one: 'That is in your game, up to what your {hz} display can show.',
      other: 'That is over your {count} games together, up to what your {hz} display can show.',
    }),
    usefulNoDisplay: forms({
      one: 'That is in your game.',
      other: 'That is over your {count} games together.',
    }),
    usefulHzSome: forms({
      one: 'That is in {count} of your {m} games, up to what your {hz} display can show.',
      other: 'That is in {count} of your {m} games, up to what your {hz} display can show.',
    }),
    usefulNoDisplaySome: forms({
      one: 'That is in {count} of your {m} games.',
      other: 'That is in {count} of your {m} games.',
    }),
    /** Beside the word of its grade, where some games have no number. */
    measuredSome: 'We ran {titles} with your parts, and with the new ones.',
    usefulBetween: 'In four of five cases it is between {low} and {high}.',
    /** How the games are weighed; what each one gains stands with it. */
    weighedAlike:
      'Each of these games counts alike. Percentages multiply, so it is a little below their plain average.',
    weighed: 'A game that you play more counts for more.',
    counts: 'Left out: {titles}. We have no number there.',
    countsUnsure: 'Left out: {titles}. Our runs there disagree.',
    held: {
      word: 'measured on another machine',
      says: 'We ran your games, and the new processor ran in another machine. Yours holds it back, so the FPS may land below the ranges. By how much, only a run in yours shows. What we promise with each game holds all the same.',
    },
  },

  /** A letter whose pick is work without a part. */
  work: {
    subject: '{tag}: try this first, it costs nothing',
    preheader: 'Nothing to buy: what to do, what it gives, and what your board can take.',
    leadFree: 'Try this first, it costs nothing: {title} goes from {before} to {after}.',
    lead: 'Try this first: {title} goes from {before} to {after}, for {price}.',
    leadPlain: 'Try this first. What it adds, we cannot say yet.',
    level: 'It costs nothing and adds little: {title} stays near {after}.',
    nothing: 'nothing',
    toPay: 'to pay',
    free: 'It costs nothing.',
    first: 'Try this first.',
    road: '{works}, costs nothing',
    nothingToBuy: 'Nothing has to be bought for it.',
    measured: 'We ran your games without it, and with it.',
    runs: 'The newest run without it is from {before}; with it, from {after}.',
    runsOneDay: 'The newest runs, without it and with it, are from {before}.',
    head: 'If you would rather do it yourself',
    howTo: 'Reply, and we write you the steps.',
    itemsHead: 'Before you start',
    wayOut: 'Rather not? We do it in {minutes}, and it costs nothing.',
    wayOutPlain: 'Rather not? We do it, and it costs nothing.',
    yes: 'Reply “yes, do it”',
    yesSubject: '{tag}: yes, do it',
    text: 'To have it done, reply “yes, do it”; we then write to you with a day. Any question is welcome, and no answer is fine too.',
  },

  /** The one thing to do now, at the end of the letter. */
  next: {
    head: 'What to do now',
    buys: 'If you want it, reply “yes, fit it”. If not, do nothing.',
    does: 'If you want it done, reply “yes, do it”. If not, do nothing.',
    /** Beside the next two: there are other ways, each with words of its own. */
    otherWay: 'For another way, reply with the words that stand beside it.',
    /** A number is missing that a run would give. */
    firstRun: 'If you would rather wait for the missing numbers, reply “please run it” first.',
    /** The same where the part waits for a fact. */
    alsoRun: 'If you want the missing numbers too, add “please run it”.',
    fact: 'Find out one thing, and write it to us: {facts}.',
    facts: 'Find out these, and write them to us: {facts}.',
    answer: 'Write back with the answer.',
    wait: 'Wait for our mail: we look up what is missing and write to you.',
    run: 'Reply “please run it”.',
    games: 'Write back which games you play.',
    lowered: 'Try lower {what} in {title}: it costs nothing.',
    keep: 'Do nothing, and keep your money for now.',
    nothing: 'Do nothing.',
    look: 'Look at the things at the top of this mail, and write what you find.',
    changes: 'If you want one of these changes, write back. If not, do nothing.',
  },

  reply: {
    yes: 'Reply “yes, fit it”',
    yesSubject: '{tag}: yes, fit it',
    fact: 'Reply with the answer',
    factSubject: '{tag}: the fact you asked for',
    ask: 'Reply with a question',
    askSubject: '{tag}: a question',
    note: 'Or just answer this mail. Any question is welcome, and no answer is fine too.',
    noteYes:
      'We then write to you with a day, and you can still change your mind. Any question is welcome, and no answer is fine too.',
    text: 'To take it, reply “yes, fit it”; we then write to you with a day, and you can still change your mind. Any question is welcome, and no answer is fine too.',
    run: 'Reply “please run it”',
    runSubject: '{tag}: please run it',
    textRun: 'For that run, reply “please run it”, and we say when. Any question is welcome too.',
    textFact: 'Write back with the answer. Any question is welcome too.',
    textFacts: 'Write back with what you find. Any question is welcome too.',
    textAsk: 'Any question is welcome: write back.',
  },
}
