import type { ASK_OWNER_EN } from '../en/askOwner.ts'
import type { FIGURES_EN } from '../en/figures.ts'
import type { JOB_EN } from '../en/job.ts'
import type { SELL_EN } from '../en/sell.ts'
import type { SHEET_MAIL_EN } from '../en/sheetMail.ts'
import type { Translated } from '../translated.ts'

export const FIGURES_DE: Translated<typeof FIGURES_EN> = {
  noPlugs: 'keine Kartenstecker',
  yes: 'ja',
  no: 'nein',
  years: 'Jahre',
  plugs: { pin16: '16-polig', pin8: '8-polig', pin6: '6-polig' },
  texts: {
    '4-pin': '4-polig',
    '8-pin': '8-polig',
    '2.5-inch': '2,5 Zoll',
    '3.5-inch': '3,5 Zoll',
    'full height': 'volle Höhe',
    'low profile': 'flach',
    moves: 'zieht auf ein anderes Mainboard mit',
    'tied to the board': 'an das Mainboard gebunden',
    none: 'nicht vorhanden',
    card: 'Grafikkarte',
    board: 'Mainboard',
    standard: 'übliche Bauart',
    own: 'eigene Bauart',
    'ATX 24-pin': 'ATX 24-polig',
    yes: 'ja',
    no: 'nein',
  },
  load: '{load} bei {room} Raumtemperatur, {power}',
}

/** The German of "I need one thing from you". */
export const ASK_OWNER_DE: Translated<typeof ASK_OWNER_EN> = {
  nouns: {
    memoryRunsMts: { what: 'die Rate, mit der der Speicher heute läuft', saysMeaning: false },
    diskEncrypted: { what: 'ob das Laufwerk verschlüsselt ist', saysMeaning: true },
  },
  whether: 'Ob ',
  nounsSmall: false,
  hello: 'Guten Tag',
  helloNamed: 'Guten Tag {fullName}',
  need: 'für den Rechner {tag} fehlt uns noch eine Angabe von Ihnen: {label}.',
  photos: {
    label: 'ein Foto vom Aufkleber',
    board: 'ein Foto vom Namen auf dem Mainboard',
    inside: 'ein Foto vom offenen Gehäuse',
    ruler: 'ein Foto mit angelegtem Lineal',
    screen: 'ein Foto von dieser Anzeige',
    plugs: 'ein Foto von den Steckern',
    back: 'ein Foto von der Rückseite',
  },
  photo: 'Oder senden Sie {photo}.',
  link: 'Hier können Sie es eintragen oder {photo} senden: {link}',
  sign: 'Danke,\n{builder}, {shop}',
  answerLink: 'Alles dazu, und ein Platz für weitere Fragen: {link}',
}

export const SHEET_MAIL_DE: Translated<typeof SHEET_MAIL_EN> = {
  lang: 'de',
  masthead: '{shop}, Rechner {tag}',
  preheader: 'Was darin steckt, wie er lief, was sich nachrüsten lässt und was nie.',
  preheaderNext: 'Er kann mehr nehmen, zum Beispiel {name}. Und was nie geht, und warum.',
  reply: {
    ask: 'Mit einer Frage antworten',
    askSubject: '{tag}: eine Frage',
    askNote:
      'Jetzt ist nichts zu tun: Bewahren Sie diese Mail auf. Oder antworten Sie darauf, jetzt oder in zwei Jahren.',
    askText:
      'Jetzt ist nichts zu tun: Bewahren Sie diese Mail auf. Jede Frage ist willkommen, jetzt oder in zwei Jahren: Schreiben Sie zurück.',
    page: 'Seite Ihres Rechners öffnen',
    pageNote:
      'Jetzt ist nichts zu tun: Bewahren Sie diese Mail auf. Der Link ist nur für Sie: Wer ihn hat, sieht Ihre Seite. Er läuft ab, und Sie können einen neuen verlangen.',
    pageText:
      'Jetzt ist nichts zu tun: Bewahren Sie diese Mail auf. Die Seite Ihres Rechners, auf der Sie nach mehr fragen können: {link}',
  },
  foot: {
    why: 'Sie bekommen diese Mail, weil Sie diesen Rechner bei uns gekauft haben. Sie gehört zum Kauf und ist keine Werbung.',
    loads: 'Diese Mail lädt beim Öffnen nichts nach: keine Bilder, kein Tracking.',
    who: '{shop}, {address}.',
    reply: 'Antwort an {email}.',
  },
}

export const SALE_LETTER_DE: Translated<(typeof SELL_EN)['letter']> = {
  subject: 'Ihr Rechner {tag}: was er hat und was hineinpasst',
  hello: 'Guten Tag',
  helloNamed: 'Guten Tag {fullName}',
  ready: 'Ihr Rechner {tag} ist fertig. Hier steht, was er hat, wie er lief und was sich nachrüsten lässt.',
  inside: 'Darin: {parts}.',
  ran: 'Wie er hier lief, durchschnittliche FPS (Bilder pro Sekunde):',
  ranRow: '- {game} ({setting}): {average}',
  next: 'Was sich nachrüsten lässt, das Wirksamste zuerst:',
  nextRow: '- {kind}: {text}',
  never: 'Was nie geht:',
  unknown: {
    one: 'Eines wissen wir noch nicht: {what}. Wir sehen nach, bevor ein Teil hineinkommt, das daran hängt.',
    other:
      '{n} Dinge wissen wir noch nicht: {what}. Wir sehen nach, bevor ein Teil hineinkommt, das daran hängt.',
  },
  cautions: 'Bevor ihn jemand öffnet:',
  row: '- {text}',
  link: 'Das ganze Blatt, und ein Platz für weitere Fragen: {link}',
  sheet: 'Das ganze Datenblatt zum Aufrüsten liegt dem Rechner bei; der Code am Gehäuse öffnet es wieder.',
  sign: '{builder}, {shop}',
}

export const PROMISE_DE: Translated<Pick<(typeof JOB_EN)['promise'], 'said' | 'scatter'>> = {
  said: {
    kept: 'Wir sagten {promised}, zwischen {low} und {high}. Gemessen haben wir {measured}. Versprechen gehalten.',
    'missed, better':
      'Wir sagten {promised}, höchstens {high}. Gemessen haben wir {measured}. Besser als versprochen, unsere Zahl lag also daneben.',
    'missed, worse':
      'Wir sagten {promised}, zwischen {low} und {high}. Gemessen haben wir {measured}. Das Versprechen ist um {missed} verfehlt.',
    'not measured':
      'Wir sagten {promised}, zwischen {low} und {high}. Noch hat niemand gemessen, das Versprechen bleibt offen.',
  },
  scatter:
    'Wir sagten {promised}, zwischen {low} und {high}. Gemessen haben wir {measured}, so nah, wie Wiederholungen übereinstimmen. Versprechen gehalten.',
}

export const TOLD_DE: Translated<(typeof JOB_EN)['told']> = {
  greeting: 'Guten Tag {fullName},',
  greetingPlain: 'Guten Tag,',
  ready: 'Ihr Rechner {tag} ist fertig.',
  home: 'danke, dass Sie es selbst in {tag} eingebaut haben.',
  what: 'Gemacht wurde: {what}.',
  promise: '{title}: vorher {before}. {says}',
  miss: 'Das liegt an uns. Antworten Sie, dann sagen wir, was wir geprüft haben und was Sie wählen können.',
  reported: '{title}: zu Hause haben Sie {reported} gemessen.',
  price: 'Der Preis ist {price}, wie vereinbart.',
  priceOther: 'Der Preis beträgt {price}; vereinbart waren {agreed}.',
  pays: 'Wir zahlen Ihnen {price}.',
  deposit: 'Sie haben {deposit} angezahlt, es bleiben {due} zu zahlen.',
  depositOver: 'Sie haben {deposit} angezahlt, Sie bekommen {due} zurück.',
  depositBack: 'Ihre Anzahlung von {deposit} kommt dazu, Sie bekommen insgesamt {due}.',
  depositEven: 'Mit Ihrer Anzahlung von {deposit} ist es bezahlt.',
  out: {
    'to test': 'Ihr altes Teil {part} prüfen wir noch.',
    'on the shelf': 'Ihr altes Teil {part} bleibt bei uns. Dafür haben wir {credit} angerechnet.',
    'on the shelf, no credit': 'Ihr altes Teil {part} bleibt bei uns.',
    'given back': 'Ihr altes Teil {part} bekommen Sie zurück.',
    scrapped: 'Ihr altes Teil {part} wird verschrottet.',
  },
  warranty: 'Unsere Garantie auf {part} läuft bis zum {date}.',
  warrantyEnds: 'Sie endet mit: {ends}.',
  reply: 'Ist etwas seltsam? Antworten Sie darauf.',
  regards: 'Freundliche Grüße',
  sign: '{builder}, {shop}',
}
