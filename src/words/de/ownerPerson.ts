import type { PERSON_EN } from '../en/ownerPerson.ts'
import type { Translated } from '../translated.ts'

/** The German of what an owner decides about themselves on their page. */
export const PERSON_DE: Translated<typeof PERSON_EN> = {
  offers: 'Mails über Aufrüstungen',
  given: 'Sie haben am {date} ja gesagt, mit diesen Worten:',
  never: 'Sie bekommen keine solchen Mails. Antworten auf Ihre eigenen Fragen kommen trotzdem.',
  withdrawn:
    'Sie haben am {date} nein gesagt: Sie bekommen keine solchen Mails. Antworten auf Ihre eigenen Fragen kommen trotzdem.',
  noAddress:
    'Wir haben keine Mailadresse von Ihnen. Ein Ja bewahren wir auf; nennen Sie uns Ihre Adresse in einer Frage oder persönlich.',
  yes: 'Ja, schreiben Sie mir',
  stop: 'Keine solchen Mails mehr',
  about: 'Sie und dieser Rechner',
  mine: 'Was wir über Sie aufbewahren',
  mineJson: 'Dasselbe als Datei für Programme (JSON)',
  mineSays:
    'Alles, was wir über Sie und diesen Rechner aufbewahren, auch unsere eigenen Notizen zu Ihnen. Haben Sie noch einen Rechner von uns, zeigt dessen Link das Seine. Notizen zum Rechner selbst, was wir schrieben und nie sandten, oder eine Kopie von allem bekommen Sie bei uns.',
  soldLink: 'Ich habe diesen Rechner nicht mehr',
  eraseLink: 'Löschen Sie mich',
  sold: {
    title: 'Sie haben diesen Rechner nicht mehr?',
    does: [
      'Dieser Link zeigt dann nichts mehr von Ihnen und von dem, was Sie gefragt haben. Er darf also mit dem Rechner mitgehen.',
      'Wir fragen Sie nichts mehr zu diesem Rechner und bieten Ihnen nichts mehr für ihn an.',
      'Wir sehen, dass er weg ist, und notieren, wer ihn jetzt hat, sobald wir es wissen.',
    ],
    undo: 'War es ein Versehen, können Sie es hier {days} Tage lang zurücknehmen. Dann endet dieser Link.',
    keeps:
      'Was wir über Sie aufbewahren, bleibt, bis Sie uns bitten, es zu löschen. Wenn Sie das möchten, tun Sie es zuerst: Danach geht es mit diesem Link nicht mehr.',
    waiting: {
      one: 'Eine Ihrer Fragen wartet noch: „{words}“ Sie wird abgesagt, wenn jemand anders den Rechner hat.',
      other:
        '{count} Ihrer Fragen warten noch, die neueste: „{words}“ Sie werden abgesagt, wenn jemand anders den Rechner hat.',
    },
    job: 'Eine Arbeit daran ist vereinbart und noch nicht fertig. Bitte rufen Sie uns deswegen an.',
    confirm: 'Ich habe ihn nicht mehr',
  },
  parted: {
    title: 'Nicht mehr Ihrer',
    says: 'Sie haben uns am {date} gesagt, dass Sie {tag} nicht mehr haben. Bis {until} können Sie das zurücknehmen; dann endet dieser Link.',
    newOwner: 'Sie haben ihn jetzt? Bitten Sie {shop} um einen eigenen Link.',
    wish: 'Sie wollten auch gelöscht werden und möchten das zurücknehmen? Schreiben Sie {shop}, bevor es ausgeführt wird.',
    back: 'Ich habe ihn doch noch',
  },
  erase: {
    title: 'Löschen, was Sie über mich aufbewahren',
    goes: 'Was gelöscht wird',
    gone: {
      particulars: 'Ihr Name, Ihre Mailadresse und Ihre Telefonnummer',
      questions: { one: 'der Wortlaut einer Frage', other: 'der Wortlaut von {count} Fragen' },
      messages: {
        one: 'eine Nachricht, die wir Ihnen geschrieben haben',
        other: '{count} Nachrichten, die wir Ihnen geschrieben haben',
      },
      photos: { one: 'ein Foto von Ihnen', other: '{count} Fotos von Ihnen' },
      readings: {
        one: 'eine Tabelle von Ihnen, soweit wir sie nicht übernommen haben',
        other: '{count} Tabellen von Ihnen, soweit wir sie nicht übernommen haben',
      },
      notes: { one: 'eine Notiz', other: '{count} Notizen' },
      links: { one: 'der Link zu dieser Seite', other: '{count} Links zu Ihren Seiten' },
    },
    stays: 'Was ohne Ihren Namen bleibt',
    kept: {
      accounts:
        'Was verkauft und bezahlt wurde: Tage und Beträge, weil Bücher aufbewahrt werden müssen. Wie lange, sagt das Gesetz unseres Landes.',
      machine:
        'Was im Rechner steckt, seine Grenzen, Reparaturen und Garantien: Sie gehören zu ihm, wer auch immer ihn hat.',
      figures: 'Antworten und Bildraten als Zahlen: Sie erzählen von Teilen, nicht von Ihnen.',
      consent:
        'Dass jemand ja oder nein zu Mails gesagt hat, und wann, um zu zeigen, dass keine ohne das Ja gesendet wurde.',
    },
    backups: 'In Sicherungskopien steht es, bis neuere an ihre Stelle treten.',
    undone:
      'Ist es einmal ausgeführt, kann es niemand rückgängig machen, und ohne Ihren Namen ist eine Garantie schwer einzulösen. Nehmen Sie vorher eine Kopie, wenn Sie eine möchten:',
    who: 'Wir führen es selbst aus, spätestens in einem Monat. Denn ein Link kann verloren gehen, und offene Arbeit oder offenes Geld muss zuerst geklärt sein. Mails über Aufrüstungen hören sofort auf.',
    open: 'Eine Arbeit an Ihrem Rechner ist vereinbart und noch nicht fertig. Sie muss zuerst fertig oder abgesagt sein; bitte rufen Sie uns an.',
    sure: 'Ich bin sicher. Ich weiß, dass es nicht rückgängig zu machen ist.',
    confirm: 'Um Löschung bitten',
    asked:
      'Sie haben uns am {date} gebeten zu löschen, was wir über Sie aufbewahren. Bis wir es getan haben, können Sie das zurücknehmen, hier oder indem Sie uns schreiben. Ist es getan, endet dieser Link.',
    back: 'Doch nicht löschen',
  },
  done: {
    consent: 'Danke. Wir schreiben, wenn etwas passt.',
    stopped: 'Erledigt. Sie bekommen keine solchen Mails mehr.',
    back: 'Gut. Alles ist, wie es war.',
    erase: 'Wir haben Ihren Wunsch und führen ihn aus. Mails über Aufrüstungen haben aufgehört.',
    kept: 'Gut. Es wird nichts gelöscht.',
  },
  labels: { consent: 'Mails über Aufrüstungen', sure: 'Löschen Sie mich' },
  record: {
    title: 'Was wir über Sie aufbewahren',
    person: 'Name und Adresse',
    name: 'Name',
    email: 'Mailadresse',
    phone: 'Telefon',
    note: 'Notiz des Händlers',
    consents: 'Ja und Nein zu Mails',
    machines: 'Rechner',
    questions: 'Fragen und was geantwortet wurde',
    jobs: 'Vereinbarte Arbeiten',
    reports: 'Bildraten, die Sie nannten',
    requests: 'Worum gebeten wurde',
    photos: 'Fotos',
    sheets: 'Mitgegebene Grenzenblätter',
    mails: 'Mails',
    mailText: 'Ihr Text, {date}',
    mailStates: { sent: 'gesendet' },
    noteOf: 'Notiz des Händlers: {note}',
    links: 'Links zur Seite des Rechners',
    none: 'Nichts.',
    given: 'Ja',
    withdrawn: 'Nein',
    until: 'bis {date}',
    agreed: 'vereinbart für {money} am {date}',
    paid: 'bezahlt {money} am {date}',
    told: 'Gesagt am {date}:',
    written: 'Geschrieben am {date}, nicht gesagt:',
    holds: 'gemacht {date}, endet {until}',
    ended: 'gemacht {date}, zurückgenommen {until}',
    photo: 'aufgenommen: {by}, {date}',
    takers: { owner: 'von Ihnen', shop: 'vom Laden' },
    readings: 'Gesendete Tabellen',
    pending: 'noch anzusehen',
    readingTaken: 'übernommen {date}',
    offers: 'Angebote, an die wir gedacht haben',
    standings: {
      asked: 'noch keine Antwort',
      'left out': 'nicht gefragt',
      'said no': 'nein, danke',
      counted: 'ja, mitgezählt',
      held: 'ja, zurückgelegt',
      'too late': 'ja, als es schon weg war',
      'to settle': 'ja, noch zu klären',
      'let go': 'zurückgegeben',
      'not bought': 'Ja, aber es wurde nicht gekauft',
      done: 'eingebaut',
    },
    readingAside: 'beiseitegelegt {date}',
  },
}
