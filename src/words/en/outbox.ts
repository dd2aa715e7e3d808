import type { Hindrance } from '../../core/outbox/hindrance.ts'
import type { MailEvent, MailKind, MailState } from '../../core/outbox/mail.ts'
import type { Stale } from '../../core/outbox/stale.ts'
import type { Forms } from '../say.ts'

const forms = (f: Forms): Forms => f

const KINDS: Readonly<Record<MailKind, string>> = {
  answer: 'answer',
  sheet: 'limits sheet',
  received: 'question received',
  askOne: 'one thing asked',
  booked: 'appointment',
  done: 'work done',
  gone: 'part gone',
  offer: 'offer',
  optedOut: 'offers ended',
  test: 'test to ourselves',
}

const STATES: Readonly<Record<MailState, string>> = {
  drafted: 'drafted',
  approved: 'approved, waits to go',
  sending: 'on its way',
  held: 'may have been sent',
  sent: 'sent',
  failed: 'failed',
  stopped: 'stopped',
}

const EVENTS: Readonly<Record<MailEvent, string>> = {
  drafted: 'Drafted',
  changed: 'Words changed',
  approved: 'Approved',
  'taken back': 'Taken back to the drafts',
  'put off': 'Put off',
  sent: 'Sent',
  'refused for now': 'Refused for now',
  'refused for good': 'Refused for good',
  'given up': 'Given up after five days',
  'no reply': 'Handed over, and no reply came',
  'lease ended': 'The program was stopped before it was handed over; it waits again',
  stopped: 'Stopped',
  'taken up': 'Taken up again',
  'tried again': 'To be tried again',
  'found sent': 'Looked up: it arrived',
  'found not sent': 'Looked up: it did not arrive; it goes out again',
  'came back': 'Came back',
  unsubscribed: 'Its reader ended all offers',
}

const HINDRANCES: Readonly<Record<Hindrance['why'], string>> = {
  'no consent': 'This customer has not agreed to offers. Ask first; the customer’s page keeps a yes.',
  'no postal address':
    'The shop’s postal address is missing, and each offer must carry it. Put it into the settings.',
  'no one-click address':
    'Offers need an https address that owners can reach, so that one press ends them. Set STILLFITS_OWNER_URL.',
  erased: 'This customer was erased. There is nobody to write to.',
  'machine gone':
    'The machine that it is about is not this customer’s any more. An offer for it helps nobody.',
  'said gone':
    'Its owner said that the machine has gone. They can take that back until {dateTime}. If they do, it goes out; if not, it is stopped.',
  'came back': 'A mail to this address came back on {date}. Correct the address first.',
  'quiet hours': 'Quiet hours: it goes out from {dateTime} on.',
  cap: 'This customer had as many offers as you allow. It goes out from {dateTime} on.',
}

const STALE: Readonly<Record<Stale['why'], string>> = {
  'price ran out': 'Its prices held until {date}. Write the answer again for today’s prices.',
  'question changed': 'The question was changed on {date}, after this answer.',
  'newer answer': 'A newer answer to this question was kept on {date}.',
}

/** The English of the outbox. */
export const OUTBOX_EN = {
  kinds: KINDS,
  states: STATES,
  events: EVENTS,
  hindrances: HINDRANCES,
  stale: STALE,
  by: 'by {name}',

  head: 'Outbox',
  about: 'Nothing leaves before you approve it. What you approve is kept, and exactly that is sent.',
  files: 'Mails are written as files and nothing leaves this computer. They are in {folder}.',
  filesHow: 'The README tells how to name a mail server instead.',
  smtp: 'Mails go to the mail server {host}.',
  off: 'Nothing is sent from here: no sender runs in this program.',
  server: 'The mail server can’t be used since {since}: {says}. Next try {next}. No mail is lost by it.',
  serverFiles: 'The files can’t be written since {since}: {says}. Next try {next}. No mail is lost by it.',
  progress: 'Sending: {waiting} wait, {sending} on their way, {sent} sent in the last hour.',
  rate: 'At most {n} a minute.',
  groups: {
    drafted: 'To approve',
    held: 'May have been sent: look it up',
    failed: 'Failed',
    approved: 'Waiting and on their way',
    sent: 'Sent',
    stopped: 'Stopped',
  },
  none: {
    drafted: 'No draft waits for you.',
    held: 'No mail is in doubt.',
    failed: 'Nothing failed.',
    approved: 'Nothing waits to go out.',
    sent: 'Nothing was sent yet.',
    stopped: 'Nothing was stopped.',
  },
  empty:
    'No mail is here yet. Write an answer to a question, or the message of a sale, and press “Put into the outbox” there.',
  noneFound: 'No mail here has “{query}” in name, address, subject or tag.',
  search: 'Name, address, subject or tag',
  find: 'Find',
  all: 'Show all',
  to: 'To',
  pages: 'Pages',
  page: 'Page {n} of {of}',
  newer: 'Newer',
  older: 'Older',
  open: 'Open',
  mails: forms({ one: '{n} mail', other: '{n} mails' }),
  rules: 'Quiet hours and how often',

  one: {
    changed: 'Change the words',
    around: 'What it is about',
    staleHead: 'The answer behind it grew old',
    staleNote:
      'Its numbers stay those of the kept answer. Write the answer again for newer ones, or approve it all the same.',
    hindered: 'It can’t be approved yet',
    approve: 'Approve and send',
    approveOld: 'Approve it all the same',
    approveNote: 'It goes to {address} as it stands below.',
    approveLater: 'It waits until {dateTime}.',
    takeBack: 'Take it back',
    takeBackNote: 'It becomes a draft again, and what was approved is thrown away.',
    stop: 'Stop it',
    stopNote: 'It will not go out. You can take it up again.',
    takeUp: 'Make it a draft again',
    again: 'Try again',
    againNote: 'The same mail, byte for byte.',
    heldHead: 'Was it sent?',
    heldSays:
      'It was handed over on {dateTime} and the program was stopped, or the line broke, before a reply came. It may have arrived. It is never sent again by itself.',
    heldHow:
      'Look for this Message-ID in your mail server’s log or in its folder of sent mails, or ask {name}. Then say what you found.',
    arrived: 'It was sent',
    notArrived: 'It was not: send it again',
    cameBack: 'It came back',
    cameBackSays: 'What the mail that came back says',
    cameBackHint:
      'The reason in its own words, such as “550 no such user”. The address then gets no more mail.',
    test: 'Send me a test',
    testNote: 'Goes to {address}, the shop’s own address, and nowhere else.',
    preview: 'As it will be seen',
    desk: 'On a desk',
    phone: 'On a phone',
    alone: 'Open it alone',
    text: 'The same as plain text',
    source: 'The mail as it is sent',
    sourceNote: 'Every byte, with its headers. {size}.',
    sourceDraft: 'It is made when you approve it.',
    download: 'Save as .eml',
    history: 'What happened to it',
    waits: 'Why it waits',
    waitsRound: 'Its round of offers is paused, so it waits until that goes on.',

    waitsTurn: 'It is due and goes out with the next ones.',
    waitsOff: 'It is due, and no sender runs. Start the program, or run “stillfits send”.',
    waitsServer: 'The mail server can’t be used: {says}. Next try {next}.',
    waitsTry: 'Refused for now: {says}. Next try {next}.',
    messageId: 'Message-ID',
    subject: 'Subject',
    opening: 'Before it',
    closing: 'After it',
    pick: 'What it recommends',
    save: 'Save the words',
    wordsHint: 'Your own words; an empty line parts paragraphs. Figures stay those of the kept answer.',
    noticeHint: 'Your own words; an empty line parts paragraphs. Figures stay as they were drafted.',
    wordsElsewhere: 'Its words are changed where it was written.',
    behind: 'The answer behind it',
    question: 'The question',
    machine: 'The machine',
    round: 'The round of offers',
    job: 'The job',
  },

  many: {
    head: 'Look through, then approve',
    pick: 'Pick this mail',
    look: 'Look through those picked',
    lookKind: 'Look through all: {kind} ({n})',
    about: 'Each goes out as it stands here. Nothing is sent before you press the button at the end.',
    none: 'Nothing is picked. Tick the mails to look through, or take all of one kind.',
    approve: forms({ one: 'Approve and send it', other: 'Approve and send those ticked of these {n}' }),
    goes: 'Send this one',
    apartHead: 'Not with the others',
    apartAbout: 'These need a look of their own: open each one.',
    left: forms({
      one: 'One more of this kind follows after these.',
      other: '{n} more of this kind follow after these.',
    }),
    asSeen: 'As it will be seen',
    approved: forms({ one: 'One mail is approved.', other: '{n} mails are approved.' }),
    refusedHead: 'Not approved',
    back: 'Back to the outbox',
  },

  ofQuestion: {
    mail: 'Mail: {kind}',
    received: 'Tell the owner that the question came in',
    receivedSays: 'A draft with their own words, what you go by, and the day if you name one.',
    answerBy: 'An answer by, if you like',
    writeReceived: 'Write that mail',
    dayPast: 'Choose a day that is still to come, or leave it empty.',
    gone: '{parts}: sold since.',
    goneSays: 'The owner was told of it on {date}, and the price still holds.',
    inPlace: 'What you offer in its place',
    ownPick: 'what the ranking recommends now',
    nothingInPlace: 'nothing',
    writeGone: 'Write that it is gone',
    goneHead: 'Told to owners, and sold since',
    goneAbout: 'Their prices still hold, so they may say yes to something that is gone.',
    goneFor: 'Tell {name}, {tag}',
    toldOn: 'told on {date}',
  },

  put: 'Put into the outbox',
  putNote: 'You look at it once more there, then approve it.',
  inOutbox: 'In the outbox: {state}.',

  bounce: {
    head: 'A mail came back',
    about:
      'Paste the whole mail that came back, with its headers. It is matched by the Message-ID of ours in it.',
    label: 'The mail that came back',
    save: 'Write it down',
    unknown: 'None of our mails’ Message-IDs stands in it. Paste all of it, with the part that quotes ours.',
    notFinal: 'It says that the mail is only delayed ({status}). Nothing was written down.',
    unclear:
      'It does not say in the form of RFC 3464 what happened. Open the mail here and write its reason down.',
  },

  settings: {
    head: 'Quiet hours and how often',
    about: 'These hold for offers. Answers and mails about work go out at any time.',
    from: 'Quiet from',
    until: 'Quiet until',
    hour: 'A whole hour, 0 to 23, in the shop’s zone. Twice the same: never quiet.',
    cap: 'Offers to one customer at most',
    days: 'in so many days',
    capRange: 'A whole number from 1 to 100.',
    daysRange: 'A whole number from 1 to 400.',
    hourRange: 'A whole hour from 0 to 23.',
    save: 'Save',
    address: 'Postal address in each offer',
    noAddress: 'none yet, so no offer goes out',
    addressWhere: 'It stands in the settings of the shop.',
  },

  unsubscribe: {
    title: 'Offers by mail',
    head: 'No more offers?',
    says: '{shop} writes offers to {name} at this address. One press ends them at once.',
    button: 'End all offers',
    still: 'Answers to your own questions and mails about work on your machine still come.',
    doneHead: 'No more offers',
    done: 'It is done. {shop} sends you no more offers, also none that were waiting.',
    goneHead: 'This link leads nowhere',
    gone: 'It may be cut off at its end. Open it from the mail again, or answer the mail with the word “unsubscribe”.',
  },
}
