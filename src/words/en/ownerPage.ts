/** The English of the page that one owner has a link to. */
export const OWNER_EN = {
  title: 'Your machine',
  need: 'We need one thing from you:',
  needValue: 'Write what you found, or send a photo instead.',
  sendValue: 'Send',
  photo: 'Or send a photo: of the label, or of the case inside',
  onePhoto: 'We have your photo and will look at it.',
  photos: 'We have {count} photos of it and will look at them.',
  questions: 'Your questions',
  answer: 'The answer in short',
  facts: 'What is in it',
  limits: 'What it can take, as far as we know',
  ask: 'Ask about an upgrade',
  words: 'Your question, in your own words',
  wordsHint: 'One or two sentences are enough.',
  noWords: 'Write what you want to know, in your own words.',
  more: 'My display, and what to keep to',
  send: 'Send the question',
  labels: {
    words: 'Your question',
    wanted: 'What I play',
    budget: 'About how much money?',
    targetFps: 'At least how many FPS?',
    reportFps: 'Average FPS',
    reportTitle: 'Game and setting',
    reportLow1Fps: '1% low',
  } as Readonly<Record<string, string>>,
  report: 'How does it run now?',
  reportSays: 'We promised a number. Tell us yours: it is kept as what you measured, beside our own runs.',
  reportTitle: 'Game and setting',
  reportFps: 'Average FPS',
  reportLow: '1% low, if you have it',
  noFps: 'Write the average that your game or counter shows.',
  sendReport: 'Send my number',
  /** Stands beside a limit, for the shop. */
  note: 'by the owner, on their page',
  done: {
    limit: 'Thank you. That is written down.',
    photo: 'Thank you. We look at your photo and write it down.',
    question: 'Your question is here. You find the answer on this page, or we write to you.',
    report: 'Thank you. Your number is written down.',
  },
  nowhere: {
    head: 'This link does not lead anywhere',
    says: 'It may have ended, or been replaced. Ask the shop for a new one.',
  },
  back: 'Back to your machine',
  /** What can go wrong on the way; heads and sentences. */
  trouble: {
    often: {
      head: 'That was a lot at once',
      says: 'Nothing was saved this time. Wait an hour, then it works again.',
    },
    slowly: {
      head: 'That was a lot of tries',
      says: 'Wait a few minutes, then it works again. If your link does not lead anywhere, ask the shop for a new one.',
    },
    large: {
      head: 'That is too large',
      says: 'Nothing was saved. Send one photo of up to 5 MB at a time; a smaller one is sharp enough.',
    },
    elsewhere: {
      head: 'This did not come from your page',
      says: 'Nothing was saved. Open your page again, and send it from there.',
    },
    unreadable: {
      head: 'This could not be read',
      says: 'It broke off on its way, and nothing was saved. Open your page again, and send it from there.',
    },
    slow: {
      head: 'This takes too long',
      says: 'It may still be finished. Wait a minute, and look at your page before you send it again.',
    },
    busy: { head: 'One moment', says: 'Too much happens at once just now, and nothing was saved.' },
    ours: { head: 'Something broke on our side', says: 'It is our fault, not yours.' },
  },
  foot: 'Only you have this link, from {shop}. It ends on {date}.',
} as const
