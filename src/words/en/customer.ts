import type { Language } from '../../core/language.ts'

/** The English of the shop's pages about its customers. */
export const CUSTOMER_EN = {
  all: 'Customers',
  none: 'No customers yet. They come with machines: with a sale, with a machine’s owner, or with a folder of tables.',
  offers: 'offers: yes',
  noOffers: 'no offers',
  erased: 'erased on {date}',
  eraseAsked: 'wants to be erased, since {date}',
  noMachine: 'no machine now',
  may: 'Offers may go to this customer: yes on {date}, {source}.',
  mayNot: 'No offers: nobody said yes.',
  objected: 'No offers: no on {date}, {source}.',
  noAddress: 'There is no mail address, so nothing can be sent.',
  record: 'Write down a yes',
  recordSays:
    'Read these words out or send them, and write down what was agreed to. Without their yes no offer goes out; answers to their own questions need none.',
  wording: 'What was agreed to, word by word',
  toldBy: 'How you were told',
  toldWays: { 'in person': 'in person or by phone', mail: 'by mail or chat' },
  language: 'Reads our mails in',
  languages: { en: 'English', de: 'German' } satisfies Record<Language, string>,
  languageOfShop: 'the shop’s own language',
  saveLanguage: 'Save the language',
  saveYes: 'They said yes',
  saveNo: 'They want no offers',
  asFile: 'All of it as a file (JSON)',
  print:
    'To hand it out, print this page or save the file: both are all that is kept of this person. Photos are in the file.',
  kept: 'All that is kept',
  erase: 'Erase this customer',
  eraseTitle: 'Erase {name}',
  eraseLaw:
    'Accounts have to be kept for as long as the law of your country says; they stay here without a name, so keep your invoices elsewhere. Notes on their machines, and messages, go whole: copy what you still need about the machine first.',
  eraseOpen: '{job} is still open. Finish it or call it off first.',
  sure: 'Erase for good. Nobody can undo this, the program neither.',
  eraseNow: 'Erase now',
  eraseMails: 'Mails that wait to be sent to them are stopped.',
  done: {
    yes: 'Kept, with today’s date and these words.',
    language: 'Saved. Mails that are written from now on are in that language.',
    no: 'Kept: no offers go out from now on.',
    erased: 'Erased. Old backups and exported files still tell who it was: delete those when you can.',
  },
  fromOwners: 'Owners said',
  saysParted: '{name} no longer has it, since {date}. Who has it now?',
  somebody: 'Its owner',
  saysErase: '{name} wants to be erased, since {date}. Look at what goes and what stays, then erase.',
  partedSince: 'The owner said on {date} that they no longer have it.',
  parted:
    'Nothing is asked of them or offered to them for it. Questions that wait stay as they are until you write down who has it now; then they are called off.',
  writeDown: 'Write down who has it now',
  stillTheirs: 'They have it after all',
  labels: { wording: 'What was agreed to', sure: 'Erase', customer: 'Customer' } as Readonly<
    Record<string, string>
  >,
} as const
