import type { RoundOwnerWords } from '../en/roundsOwner.ts'
import type { Translated } from '../translated.ts'

export const ROUND_OWNER_DE: Translated<RoundOwnerWords> = {
  title: 'Ein Angebot für {tag}',
  from: 'Von {shop}',
  ask: 'Möchten Sie es?',
  yes: 'Ja, bitte zurücklegen',
  yesDeal: 'Ja, ich bin dabei',
  no: 'Nein, danke',
  until: 'Das Angebot gilt bis {date}.',
  stock: 'Davon sind noch {left} da; gefragt haben wir {asked} Personen.',
  stockYours: {
    one: 'Davon gibt es ein Stück, und gefragt haben wir nur Sie.',
    other: 'Davon gibt es {left} Stück, und gefragt haben wir nur Sie.',
  },
  stockLast:
    'Davon ist noch ein Stück da; gefragt haben wir {asked} Personen. Wer zuerst Ja sagt, bekommt es.',
  yesMeans:
    'Mit einem Ja legen wir es sofort für Sie zurück und schreiben Ihnen einen Tag. Bis die Arbeit beginnt, können Sie es sich anders überlegen.',
  dealLine: {
    one: 'Wir haben es noch nicht. Wir kaufen es, wenn bis {date} {wanted} Person Ja sagt; bisher {count}.',
    other:
      'Wir haben es noch nicht. Wir kaufen es, wenn bis {date} {wanted} Personen Ja sagen; bisher {count}.',
  },
  dealNone: {
    one: 'Wir haben es noch nicht. Wir kaufen es, wenn bis {date} {wanted} Person Ja sagt; bisher niemand.',
    other:
      'Wir haben es noch nicht. Wir kaufen es, wenn bis {date} {wanted} Personen Ja sagen; bisher niemand.',
  },
  dealMeans:
    'Mit einem Ja zählen Sie mit. Kaufen wir es, legen wir es in der Reihenfolge der Zusagen zurück. Kaufen wir es nicht, geschieht nichts, und Sie hören von uns.',
  held: 'Es gehört Ihnen: für Sie zurückgelegt.',
  heldMore: 'Ein Tag steht noch nicht fest: Wir schreiben Ihnen einen.',
  heldDay: 'Ihr Termin ist {when}.',
  counted: 'Sie sind dabei.',
  countedMore: 'Am {date} wissen wir, ob wir es kaufen. Dann schreiben wir Ihnen in jedem Fall.',
  tooLate: 'Schon vergeben: Jemand anderes war schneller.',
  tooLateMore:
    'Nichts wurde bestellt, Sie schulden nichts. Ihr Ja ist notiert: Kommt eines zurück, fragen wir in der Reihenfolge der Zusagen.',
  inLine: 'Sie stehen auf der Warteliste.',
  dealFull: 'Ihr Ja ist notiert, aber vor Ihnen haben schon so viele Ja gesagt, wie wir kaufen könnten.',
  toSettle: 'Ihr Ja ist notiert, und wir sehen es uns an.',
  toSettleMore:
    'An Ihrem Rechner hat sich etwas geändert, seit wir schrieben. Wir melden uns, bevor etwas geschieht.',
  saidNo: 'Danke für die Antwort. Es geschieht nichts.',
  saidNoMore: 'Solange es da ist, können Sie es sich unten noch anders überlegen.',
  letGo: 'Ihr Ja ist zurückgenommen. Für Sie ist nichts zurückgelegt, und Sie schulden nichts.',
  done: 'Die Teile sind eingebaut.',
  underWay: 'Die Arbeit hat begonnen. Stimmt etwas nicht, antworten Sie auf unsere Mail.',
  gone: 'Schon vergeben.',
  goneMore: 'Jemand anderes war schneller. Es ist nichts zu tun, und Sie schulden nichts.',
  over: 'Dieses Angebot ist vorbei.',
  overMore: 'Es galt bis {date}. Antworten Sie auf unsere Mail, dann sehen wir nach, was es gibt.',
  endedMore:
    'Wir haben es am {date} beendet. Antworten Sie auf unsere Mail, dann sehen wir nach, was es gibt.',
  calledOff: 'Wir haben es nicht gekauft.',
  calledOffMore: 'Nichts wurde bestellt, Sie schulden nichts.',
  calledOffFew: 'Zu wenige wollten es. Nichts wurde bestellt, Sie schulden nichts.',
  back: 'Doch nicht: bitte wieder freigeben',
  backLine: 'Doch nicht: mein Ja zurücknehmen',
  backDeal: 'Doch nicht: bitte nicht mitzählen',
  againHead: 'Eines ist zurückgekommen',
  again: 'Noch einmal Ja sagen',
  games: 'Was es in Ihren Spielen bringt',
  price: 'Was es kostet',
  mail: {
    deal: {
      one: 'Dieses Teil haben wir noch nicht. Wir fragen {asked} Personen und kaufen ein, wenn bis zum {date} mindestens eine davon Ja sagt.',
      other:
        'Dieses Teil haben wir noch nicht. Wir fragen {asked} Personen und kaufen ein, wenn bis zum {date} mindestens {wanted} von ihnen Ja sagen.',
    },
    dealYou:
      'Dieses Teil haben wir noch nicht. Wir fragen nur Sie und kaufen es, wenn Sie bis zum {date} Ja sagen.',
    dealYesNote:
      'Das öffnet eine Seite, auf der alles noch einmal steht. Erst ein Ja dort zählt. Was wir kaufen, legen wir in der Reihenfolge der Zusagen zurück; dann schlagen wir Ihnen einen Termin vor.',
    dealYesNoteYou:
      'Das öffnet eine Seite, auf der alles noch einmal steht. Erst ein Ja dort zählt. Kaufen wir es, legen wir es für Sie zurück und schlagen Ihnen einen Termin vor.',
    dealSecond:
      'Kaufen wir es nicht oder reicht es nicht für alle, geschieht nichts, und Sie hören davon. Ein Ja kostet nichts, und bis die Arbeit beginnt, können Sie es zurücknehmen.',
    dealSecondYou:
      'Kaufen wir es doch nicht, geschieht nichts, und Sie hören davon. Ein Ja kostet nichts, und bis die Arbeit beginnt, können Sie es zurücknehmen.',
    boughtFewer: {
      one: 'Davon haben wir nur eines gekauft: {what}. Jemand, der vor Ihnen Ja gesagt hat, bekommt es.',
      other: 'Davon haben wir nur {count} gekauft: {what}. Wer vor Ihnen Ja gesagt hat, bekommt sie.',
    },
    notBoughtSubject: '{tag}: nicht gekauft, Sie schulden nichts',
    notBought:
      'Angeboten hatten wir: {what}. Wir haben uns entschieden, das Teil nicht zu kaufen. Das liegt an uns, nicht an Ihnen oder Ihrem Rechner.',
    notBoughtFew:
      'Angeboten hatten wir: {what}. Gekauft haben wir das Teil nicht, weil zu wenige es wollten.',
    notBoughtWhy: 'Sie bekommen diese Mail, weil Sie am {date} Ja gesagt haben. Sie ist die Antwort darauf.',
  },
}
