/** What a look at the installation finds, and what to do about it. `{}` holes are figures, paths and names of settings. */
export const DOCTOR_EN = {
  standing: { ok: 'ok', look: 'look at this', wrong: 'wrong' },
  names: {
    node: 'Node.js',
    database: 'Database',
    version: 'Database version',
    writing: 'Writing',
    log: 'Write-ahead log',
    disk: 'Free disk',
    clock: 'Clock',
    files: 'Who can read the files',
    accounts: 'Accounts',
    address: 'Postal address',
    mail: 'Sending mails',
    outbox: 'Outbox',
    owners: 'Address for owners',
    backup: 'Backups',
    backupDisk: 'Disk of the backups',
    port: 'Port',
    proxy: 'Other computers',
  },
  node: '{version}',
  database: {
    whole: '{path}: whole, {rows} rows, newest entry {newest}',
    server: 'On a server at an address that the settings name; it answers.',
    serverAway: 'On a server that does not answer. Check STILLFITS_DATABASE and that server.',
    serverRefuses: 'On a server that refuses us. Check STILLFITS_DATABASE_TOKEN.',
    openly:
      'The address has no TLS, so everybody on the way can read customers and token. Use https: or libsql:, but on a network that is yours alone.',
    noReferences: 'The server does not check references between rows. Stillfits does not start on it.',
    none: '{path} is not there. The first start makes it. If you had one, check STILLFITS_DATABASE.',
  },
  version: {
    current: '{n}, as this program has it',
    behind: '{n} of {known}. The next start brings it up to date; make a backup first.',
  },
  writing: {
    ok: 'A write begins and ends.',
    busy: 'Another program is writing for long. Look which, if this stays so.',
    no: 'The database cannot be written ({code}). Check the rights of file and folder, and whether the disk is read-only.',
  },
  log: {
    ok: 'on',
    no: 'off. The next start turns it on; on a network drive it cannot work: use a disk of this computer.',
  },
  disk: {
    ok: '{free} free, database {size}',
    low: '{free} free, database {size}. Free some space: a backup needs as much again.',
    full: '{free} free. Free some space now: nothing can be saved soon.',
  },
  clock: {
    together: 'as the server of the database has it',
    apart:
      'The clock here says {now}, that of the server of the database {there}. Set them; who sends a mail and when goes by them.',
    ok: 'not before the newest entry ({newest})',
    behind:
      'The clock says {now}, and there is an entry of {newest}. Set the clock; reminders, sessions and backups go by it.',
  },
  files: {
    ok: 'you alone',
    open: 'Others on this computer can read {path}. Run: chmod {mode} {path}',
  },
  accounts: { ok: '{n} open', none: 'Nobody has one yet. npm start prints the code that makes the first.' },
  address: { ok: 'given', none: 'None is given under Settings. Offers are not sent without it.' },
  mail: {
    smtp: 'through {host}, port {port}, {security}. Whether it takes mails: send yourself a test from the outbox.',
    files: 'No mail server is named: mails are written to {folder} and nothing leaves.',
    unwritable: '{folder} cannot be written. Set STILLFITS_MAIL_FOLDER to a folder that you may write to.',
    trouble: 'The mail server has not been of use since {since}: {says}',
  },
  outbox: {
    ok: 'nothing is stuck',
    held: '{n} in doubt: look them up and say what you found.',
    late: '{n} due for more than an hour. Is the program running?',
  },
  owners: {
    ok: '{url}',
    none: 'STILLFITS_OWNER_URL is not set: links in texts work in your own network alone, and offers are not sent.',
    plain: '{url} has no TLS. Use https.',
  },
  backup: {
    ok: 'the last good one is {days} days old',
    old: 'No good one for {days} days. Run: stillfits backup FOLDER',
    never: 'There is no good one. Run: stillfits backup FOLDER',
    off: 'None is made by itself (STILLFITS_BACKUP_FOLDER is off).',
    server:
      'The server of the database has to make them: ask whoever runs it how old the last one is. Stillfits makes none.',
    failed: 'The last try did not work: {says}',
  },
  backupDisk: {
    ok: 'another one than the database’s',
    same: '{folder} is on the disk of the database. Set STILLFITS_BACKUP_FOLDER to another disk, or copy it elsewhere.',
  },
  port: {
    ok: '{port} is free',
    taken:
      '{port} is taken. That is right while Stillfits runs; else stop the other program or set STILLFITS_PORT.',
    no: '{port} cannot be listened on ({code}). Check STILLFITS_HOST and STILLFITS_PORT.',
  },
  proxy: {
    ok: 'none can reach it directly',
    open: '{host} is reachable without TLS, and no proxy is named. README.md tells how to put one in front.',
  },
  sum: '{wrong} wrong, {look} to look at, {ok} ok',
} as const
