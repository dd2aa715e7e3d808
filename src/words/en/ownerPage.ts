import type { JobState, QuestionState } from '../../core/job/states.ts'
import type { Forms } from '../say.ts'

/** The English of the page that one owner has a link to. */
export const OWNER_EN = {
  title: 'Your machine',
  need: 'We need one thing from you:',
  needValue: 'Write what you found, or send a photo instead.',
  lengths: 'In mm, or with its unit: 286 mm, 28.6 cm, 11 1/4 in.',
  choose: 'choose',
  sendValue: 'Send',
  photo: 'Or send {photo}',
  onePhoto: 'We have your photo and will look at it.',
  photos: 'We have {count} photos of it and will look at them.',
  questions: 'Your questions',
  askedPhotos: { one: 'with one photo', other: 'with {count} photos' } satisfies Forms,
  quoted: '“{words}”',
  /** How far a question is; once there is a job, how far that is. */
  states: {
    new: 'we are looking at it',
    'waiting for the owner': 'we need one thing from you',
    answered: 'answered',
    'called off': 'put aside',
    agreed: 'agreed; we make a date with you',
    booked: 'booked',
    'on the bench': 'on our bench now',
    done: 'done',
  } satisfies { readonly [S in QuestionState | JobState]: string },
  /** Of a job that the owner fits at home: nothing stands on our bench. */
  atHome: {
    agreed: 'agreed; you fit it at home',
    booked: 'booked: you pick the parts up',
    'on the bench': 'with you, to fit',
  },
  inAtHome: 'it is in',
  answer: 'The answer in short',
  answerOf: 'What we told you on {date}',
  printSheet: 'This as a page to print',
  facts: 'What is in it',
  sheet: 'Its limits sheet: what it can take next, and what it never can',
  sheetPdf: 'This as a PDF',
  limits: 'What it can take, as far as we know',
  ask: 'Ask about an upgrade',
  words: 'Your question, in your own words',
  wordsHint: 'One or two sentences are enough.',
  /** What its kind cannot do without, in the owner's own words; by field. */
  lacking: {
    partInMind: 'Write which part it is: its name, as the seller or its label tells it.',
    wanted: 'Choose at least one game and its setting.',
    complaint: 'Say what bothers you: slow, hot or loud.',
  } as Readonly<Record<string, string>>,
  noWords: 'Write what you want to know, in your own words.',
  more: 'My display, and what to keep to',
  askPhotos: 'Photos, if one shows more than words',
  askPhotosHint:
    'Up to three; JPEG, PNG or WebP, at most 5 MB each. Where and when they were taken is not kept.',
  photosAgain: 'Choose the photos again: they were not kept.',
  send: 'Send the question',
  labels: {
    words: 'Your question',
    wanted: 'What I play',
    partWords: 'Its name, as you know it',
    partPrice: 'What you can get it for',
    partInMind: 'The part you have in mind',
    complaint: 'What bothers you?',
    budget: 'About how much money?',
    targetFps: 'At least how many FPS?',
    reportFps: 'Average FPS',
    reportTitle: 'Game and setting',
    reportLow1Fps: '1% low',
    photo: 'Photo',
    table: 'What the line printed',
    tableFile: 'Or a file',
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
    language: 'From now on in English.',
  },
  nowhere: {
    head: 'This link does not lead anywhere',
    says: 'It may have ended, or been replaced. Ask the shop for a new one: answer any of its mails, or write to it.',
    wish: 'Did you ask to be erased, and want to take that back? Write to the shop soon: until it has carried your wish out, it can leave everything as it is.',
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
      says: 'Nothing was saved. A photo may have up to 5 MB; a smaller one is sharp enough. Go back: what you wrote is often still there.',
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
  language: { head: 'Language', says: 'This page, and our mails to you:' },
  closed: 'Has your link ended? Write to us, and we send you a new one.',
  foot: 'Only you have this link, from {shop}. It ends on {date}.',
} as const
