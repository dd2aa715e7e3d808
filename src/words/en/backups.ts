/** Copies of the database. */
export const BACKUPS_EN = {
  title: 'Backups',
  lead: 'A backup is a copy of everything: shop, machines, customers, photos, mails. It is made while the program runs, opened, and looked through from end to end before it counts.',
  none: 'No backup was made yet.',
  old: 'The last good backup is {days} days old.',
  never: 'There is no good backup.',
  oldNext: 'Make one now, and see below why none came by itself.',
  toThem: 'Look at the backups',
  demo: 'The demo is gone when the program stops, so no backups are made of it. With your own shop they come by themselves, each day.',
  server: 'The database is on a server. Whoever runs that server makes its backups; Stillfits makes none.',
  off: 'No backup is made by itself: STILLFITS_BACKUP_FOLDER is off.',
  schedule:
    'While the program runs it makes one each day at {hour}:00 ({zone}), or after its start if the computer was off then, and keeps the newest {keep}. Older ones of its own are deleted.',
  where: 'Folder: {folder}',
  sameDisk:
    'This folder is on the same disk as the database. If the disk breaks or the computer is stolen, both are gone. Set STILLFITS_BACKUP_FOLDER to another disk, or copy the folder somewhere else.',
  people:
    'Backups hold your customers’ names and addresses: keep them where only you can read them. Whoever was erased is still in backups from before that, until the newest {keep} are all younger. Delete copies that you made elsewhere yourself, and after restoring an old one erase them again.',
  restore:
    'To go back to one: stop the program, then stillfits restore FILE. It shows what is in the file and keeps the present database beside it.',
  change:
    'Hour, folder, how many are kept and when you are warned are set where the program is started: STILLFITS_BACKUP_HOUR, _FOLDER, _KEEP, _WARN_DAYS.',
  now: 'Make a backup now',
  made: 'Backup made and looked through.',
  when: 'When',
  what: 'What',
  file: 'File',
  good: 'whole',
  rows: '{rows} rows, {size}',
  gone: 'the file is not there any more',
  removed: 'deleted by rotation',
  failedHead: 'did not work',
  next: 'Next one: {at}',
} as const

/** What stood in the way, and what to do. */
export const COPY_FAILURES_EN = {
  'not a database': 'The file is not a database.',
  damaged: 'The database is damaged: its pages do not hold together. Keep it as it is, and restore a backup.',
  'foreign keys': 'Rows refer to others that are not there. Keep the file as it is, and restore a backup.',
  'another program': 'The file is a database of another program, or an empty one.',
  newer: 'The file was written by a newer Stillfits. Install that version, then try again.',
  'rows differ': 'The copy does not have the rows of the original. Look at the disk, then try again.',
  'is there already': 'A file of that name is there already. Wait a second, or give another folder.',
  'no room': 'The disk is full. Free some space, then try again.',
  'cannot be written': 'The folder cannot be made or written to. Give one that you may write to.',
  'on a server': 'The database is on a server. Whoever runs that server makes its backups.',
  'switched off': 'Set STILLFITS_BACKUP_FOLDER to a folder, then start again.',
  'under way': 'Another one is being made right now. Wait until it is done.',
  failed: 'The copy could not be made. Look at the disk and its free space, then try again.',
} as const

/** Said by the commands that make a backup and go back to one. */
export const RESTORE_EN = {
  made: 'Whole: {rows} rows, {bytes} bytes, database version {version}. It was opened and looked through.',
  people:
    'It holds your customers’ names and addresses. Keep it where only you can read it, and not on this disk alone.',
  all: 'all rows: {rows}, database version {version}',
  newest: 'newest entry: {at}',
  nothingDated: 'newest entry: none',
  brought: 'Brought from database version {from} to {to}.',
  restored: 'Restored to {path}.',
  kept: 'The database that was there is kept as {path}. Delete it yourself once you are sure.',
  eraseAgain:
    'Customers whom you erased after that backup are back: erase them again. Accounts that were closed and keys that were taken back since are open again. Mails that were on their way then are held as in doubt, and rounds are paused, because both may have gone out since: look through them. Everybody has to sign in again.',
  failures: {
    'no such file': 'There is no such file. Give the path of a backup.',
    'in use':
      'Another program has the database open. Stop Stillfits (and whatever else reads the file), then try again. Nothing was changed.',
    'the same file': 'This is the database itself. Give the path of a backup.',
  },
} as const
