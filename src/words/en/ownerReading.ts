/** The English of a firmware table that an owner sends from their page. */
export const OWNER_READING_EN = {
  link: 'Send a new reading of your machine',
  about: 'After a change, or before a bigger question: then we know exactly what is inside today.',
  title: 'A new reading of your machine',
  says: 'Every PC keeps a table of its own parts: board, firmware, processor, memory, slots. One line copies it out. Paste it here, look at what it says, then send it to us. Nothing about your machine changes by that.',
  caution:
    'The line reads and changes nothing, and nobody has to open the case. Only ever run lines in such a window that you got from somebody you trust, and only on this machine.',
  windows: 'On Windows',
  windowsSteps: [
    'Open the Start menu, type PowerShell, and open it. You need not be an administrator.',
    'Copy the line below, paste it there, and press Enter.',
    'Select what it prints, a few thousand letters, and copy all of it.',
    'Paste it into the field below.',
  ],
  windowsLine: 'Line for Windows PowerShell',
  linux: 'On Linux, or from a file',
  linuxSays:
    'This line prints the same on Linux. It asks for your password, because the table is the system’s.',
  linuxLine: 'Line for Linux',
  files: 'A file with the table is taken as it is.',
  table: 'What the line printed',
  file: 'Or a file',
  read: 'Look at it first',
  notKept: 'Nothing was kept, neither a text nor a file. Paste the text or choose the file, and send again.',
  unread:
    'Serial numbers and the machine’s own number stand in the table too. They are not read, not shown and not kept.',
  preview: 'What your reading says',
  previewSays: 'Look whether this is the right machine. Nothing is sent yet.',
  otherMachine:
    'Board and processor are both other ones than we wrote down. Is it the reading of this machine? If not, leave it.',
  agrees: 'All of it is as we wrote it down.',
  differs: 'Not as we wrote it down',
  new: 'Not written down yet',
  same: 'As we wrote it down',
  written: '{read}. We wrote down: {written}.',
  plain: '{read}',
  added: '{read}: one more than we wrote down.',
  gone: 'Nothing in your reading. We wrote down: {written}.',
  mayBeSame: 'It may be the same part under another name.',
  send: 'Send it to the shop',
  leave: 'Leave it',
  sent: {
    waits: 'You sent a reading on {date}. We look at it; a newer one takes its place.',
    taken: 'We took over your reading of {date}.',
    aside: 'We looked at your reading of {date} and left things as they are written.',
  },
  done: 'Thank you. We have your reading and look at it. Your machine’s sheet stays as it is until then.',
} as const
