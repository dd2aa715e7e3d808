/** The English of the limits sheet as a mail, around what the sheet itself says. */
export const SHEET_MAIL_EN = {
  lang: 'en',
  masthead: '{shop}, machine {tag}',
  preheader: 'What is inside, how it ran, what it can take next, and its limits.',
  /** Beside the name of the part that gains most. */
  preheaderNext: 'It can take more: {name}, for one. And its limits, and why.',
  reply: {
    ask: 'Reply with a question',
    askSubject: '{tag}: a question',
    askNote: 'There is nothing to do now: keep this mail. Or just answer it, now or in two years.',
    askText:
      'There is nothing to do now: keep this mail. Any question is welcome, now or in two years: write back.',
    page: 'Open the page of your machine',
    pageNote:
      'There is nothing to do now: keep this mail. The link is yours alone: whoever has it sees your page. It stops working after a while, and you can ask for a new one.',
    pageText:
      'There is nothing to do now: keep this mail. The page of your machine, where you can ask about more: {link}',
  },
  foot: {
    why: 'You get this mail because you bought this machine from us. It belongs to the sale and is not an advertisement.',
    loads: 'This mail loads nothing when you open it: no pictures, no tracking.',
    who: '{shop}, {address}.',
    reply: 'Reply to {email}.',
  },
} as const
