import type { LIMITS_SHEET_EN } from '../en/limitsSheet.ts'
import type { Translated } from '../translated.ts'

/** The German of the limits sheet. */
export const LIMITS_SHEET_DE: Translated<typeof LIMITS_SHEET_EN> = {
  title: 'Datenblatt zum Aufrüsten',
  about: 'Was dieser Rechner hat, was sich nachrüsten lässt und was nicht. Stand: {date}.',
  sold: 'Verkauft am {date}.',
  inside: 'Was darin steckt',
  count: '{n} × {name}',
  firmware: 'Firmware bei Übergabe',
  measured: {
    head: 'Wie er lief',
    says: 'An genau diesem Rechner mit diesen Teilen gemessen. FPS sind Bilder pro Sekunde. Langsame Momente: 99 von 100 Bildern sind schneller (1%-Low).',
    none: 'Mit den Teilen, die jetzt darin sind, wurde nicht gemessen.',
    game: 'Spiel',
    average: 'Durchschnitt',
    low: 'Langsame Momente',
    again: 'zwei Testläufe widersprechen sich; es muss neu getestet werden',
  },
  next: {
    head: 'Was sich nachrüsten lässt',
    says: 'Was in den Spielen oben am meisten bringt, steht zuerst. Ohne Preise: Die ändern sich, die Grenzen bleiben.',
    unranked:
      'Kein Spiel wurde gemessen, darum ist nichts nach Gewinn geordnet. Ohne Preise: Die ändern sich, die Grenzen bleiben.',
    best: {
      plain: '{name}: {verdict}, im Durchschnitt {gain}.',
      estimated: '{name}: {verdict}, im Durchschnitt {gain}, geschätzt.',
    },
    gains: {
      plain: '{name}: im Durchschnitt {gain}.',
      estimated: '{name}: im Durchschnitt {gain}, geschätzt.',
    },
    range: '{gain} (in vier von fünf Fällen {low} bis {high}\u00a0%)',
    slower: 'passt, wird aber etwas ausgebremst',
    fits: 'passt',
    work: 'passt nach Vorarbeit ({work})',
    newPart: 'dazu neu: {kind}',
    none: {
      nothing: 'Von den Teilen, die wir kennen, passt keines in den Rechner, wie er ist.',
      noGain: 'Andere passen, aber bei keinem ist sicher, dass es in diesen Spielen etwas bringt.',
      notRanked: 'Andere passen. Was sie bringen, weiß niemand, bevor hier ein Spiel gemessen ist.',
      notTried: 'Wir kennen kein anderes Teil dieser Art zum Vergleich.',
      loose:
        'Hier haben wir keine Teile verglichen: Was passt, hängt von den freien Plätzen weiter unten ab.',
      looseUnknown:
        'Hier haben wir keine Teile verglichen: Die Plätze für Laufwerke hat noch niemand gezählt.',
    },
    fps: {
      measured: '{title}: von {before} auf {after} ({low} bis {high}).',
      estimated: '{title}: von {before} auf etwa {after} ({low} bis {high}), geschätzt.',
    },
    countedOn: '{rated} laut Aufkleber, davon verplanen wir {usable}',
    unclearPart: 'Noch unklar: {name}. {why}',
    unclear: {
      one: 'Bei einem weiteren Teil ist es noch unklar: Fragen Sie uns.',
      other: 'Bei {n} weiteren Teilen ist es noch unklar: Fragen Sie uns.',
    },
  },
  never: {
    head: 'Seine Grenzen, und warum',
    holders: {
      board: 'Das ändert nur ein anderes Mainboard, mit passendem Prozessor und Speicher.',
      case: 'Das ändert nur ein anderes Gehäuse.',
    },
    of: { board: 'Solange dieses Mainboard bleibt:', case: 'Solange dieses Gehäuse bleibt:' },
    rows: {
      socket: 'Kein Prozessor für einen anderen Sockel als {value}.',
      memoryType: 'Kein anderer Speicher als {value}: Ein anderer geht nicht in den Steckplatz.',
      memoryMaxGB: 'Nicht mehr Speicher als {value}.',
      processorPowerW: 'Kein Prozessor, der dauerhaft mehr als {value} braucht.',
      slotPcieGen:
        'Neuere Grafikkarten laufen, so schnell der Steckplatz es zulässt (PCIe-Generation {value}).',
      cardRoomMm: 'Keine Grafikkarte, die länger ist als {value}.',
      cardSlots: 'Keine Grafikkarte, die mehr als {value} Steckplätze breit ist.',
      cardBracket: 'Keine Grafikkarte außer solchen mit Bauhöhe: {value}.',
      coolerRoomMm: 'Kein Kühler, der höher ist als {value}.',
    },
  },
  free: {
    head: 'Freie Plätze',
    of: '{free} von {total} frei',
    atMost: 'höchstens {free} von {total} frei',
    unknown: '{used} belegt; wie viele es gibt, ist nicht bekannt',
    unknownMemory: 'nicht gezählt',
    places: {
      'memory slots': 'Speichersteckplätze',
      'M.2 sockets': 'M.2-Steckplätze',
      'SATA ports': 'SATA-Anschlüsse',
      '2.5-inch bays': '2,5-Zoll-Plätze',
      '3.5-inch bays': '3,5-Zoll-Plätze',
      'card plugs': 'Stecker für eine Karte',
      'drive plugs': 'SATA-Stromstecker',
    },
  },
  supply: {
    head: 'Welche Reserve das Netzteil hat',
    says: 'Bei Volllast sind {load} belegt: Prozessor {processor}, Karte {card}, Rest {rest}. Wir rechnen mit {usable}, weil wir unter den {rated} bleiben, die der Aufkleber auf 12 V nennt.',
    left: '{left} sind frei.',
    over: 'Das sind {over} mehr, als wir zählen. Fragen Sie uns, bevor Sie etwas hinzufügen.',
    unknown: 'Noch unklar: {missing}.',
    unknownBare: 'Noch unklar: Kein Netzteil ist notiert.',
  },
  warranties: {
    head: 'Garantie',
    row: '{part}: bis zum {date}, von {giver}.',
    ends: 'Sie endet mit: {what}.',
    givers: { shop: 'uns', maker: 'dem Hersteller' },
    none: 'Auf diesem Blatt steht keine. Was beim Kauf vereinbart wurde, gilt.',
  },
  unknown: {
    head: 'Was wir nicht wissen',
    says: 'Bevor ein Teil hineinkommt, das davon abhängt, wird nachgesehen.',
  },
  handed: {
    head: 'Wie es mitgegeben wurde',
    on: 'Mitgegeben am {date}',
    asThen: 'wie es damals war.',
    now: 'Das Blatt nach heutigem Stand',
    message: 'Die Nachricht dazu',
  },
  cautions: 'Bevor Sie ihn öffnen',
  foot: 'Von {shop}. Fragen: {contact}.',
  footBare: 'Von {shop}.',
  label: 'Was dieser Rechner hat und was hineinpasst',
}
