import type { OwnerFindingWords } from '../en/findings.ts'
import { counted } from './texts.ts'

/** Why a drive has no M.2 socket, by the name of the obstacle. */
const NO_SOCKET: Readonly<Record<string, string>> = {
  key: 'Die Kerbe des Laufwerks passt zu keinem M.2-Steckplatz Ihres Mainboards.',
  length: 'Kein M.2-Steckplatz für dieses Laufwerk hat eine Schraube für seine Länge.',
  interface:
    'Es lässt sich stecken, und Ihr Mainboard sieht es nicht: Der Steckplatz ist nicht dafür verdrahtet.',
  taken: 'Jeder M.2-Steckplatz, der das Laufwerk nähme, ist belegt.',
  'no socket': 'Ihr Mainboard hat keinen M.2-Steckplatz für ein Laufwerk.',
}

const LARGER = 'Ein größeres Laufwerk anstelle des alten passt.'

/** Drives: sockets, links, ports, plugs and bays. */
export const STORAGE_DE: Pick<OwnerFindingWords, Extract<keyof OwnerFindingWords, `storage.${string}`>> = {
  'storage.m2': {
    fits: (v) => ({ owner: `Das Laufwerk passt in den M.2-Steckplatz ${v.socket} Ihres Mainboards.` }),
    'does not fit': (v) => ({
      owner: NO_SOCKET[v.obstacle] ?? NO_SOCKET.taken ?? '',
      ...(v.obstacle === 'taken' ? { next: LARGER } : {}),
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, in welchen M.2-Steckplätzen Ihre Laufwerke sitzen und welcher also frei ist.',
    }),
  },
  'storage.link': {
    fits: (v) => ({
      owner: `Der Steckplatz gibt dem Laufwerk den ganzen Datenweg, den es hat: ${v.linkGBps}.`,
    }),
    'fits slower': (v) => ({
      owner: `Das Laufwerk läuft mit ${v.linkGBps}; es könnte ${v.driveGBps}.`,
      next: 'Was das in einem Spiel kostet, zeigt nur ein Testlauf.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie breit der Datenweg des Laufwerks wird.' }),
  },
  'storage.sharing': {
    fits: (v) => ({ owner: `Im Steckplatz ${v.socket} nimmt das Laufwerk nichts, was Ihr Rechner nutzt.` }),
    'fits slower': (v) => ({
      owner: `Ein Laufwerk im Steckplatz ${v.socket} nimmt der Grafikkarte Datenwege: ${v.leftLanes} von ${v.usesLanes} bleiben.`,
      next: 'Was das in einem Spiel kostet, zeigt nur ein Testlauf.',
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Ist Steckplatz ${v.socket} belegt, fallen diese SATA-Anschlüsse aus: ${v.portsOff}.`,
      next: `Wir stecken Ihre Laufwerke${minutes === undefined ? '' : ` in ${minutes}`} an andere Anschlüsse.`,
    }),
    'does not fit': (v) => ({
      owner: `Ist Steckplatz ${v.socket} belegt, bleiben ${counted(v.portsLeft, 'SATA-Anschluss', 'SATA-Anschlüsse')}, und Ihr Rechner braucht ${v.sataDrives}.`,
    }),
    "can't tell": () => ({
      owner: 'Auf Ihrem Mainboard nimmt ein Laufwerk anderen etwas; was das hier kostet, wissen wir nicht.',
    }),
  },
  'storage.ports': {
    fits: (v) => ({
      owner: `Für jedes Laufwerk ist ein SATA-Anschluss da: ${v.sataDrives} von ${v.ports} sind dann belegt.`,
    }),
    'does not fit': (v) => ({
      owner: `Nötig sind insgesamt ${counted(v.sataDrives, 'SATA-Anschluss', 'SATA-Anschlüsse')}, und Ihr Mainboard hat ${v.ports}${v.offMost === '0' ? '' : `; davon fallen ${v.offMost} neben den M.2-Laufwerken aus`}.`,
      next: LARGER,
    }),
    "can't tell": (_, { doubt }) =>
      doubt === undefined
        ? { owner: 'Wir wissen nicht, wie viele SATA-Anschlüsse Ihres Mainboards frei sind.' }
        : {
            owner:
              'Dieses Laufwerk braucht einen eigenen Anschluss; ob Ihr Mainboard ihn hat, wissen wir nicht.',
            next: 'Wir lesen das Handbuch Ihres Mainboards, bevor wir etwas versprechen.',
          },
  },
  'storage.power': {
    fits: (v) => ({
      owner: `Ihr Netzteil hat für jedes Laufwerk einen Stromstecker: ${v.plugDrives} von ${v.sataPlugs} sind dann belegt.`,
    }),
    'fits after work': (v) => ({
      owner: `Ihre Laufwerke brauchen ${counted(v.plugDrives, 'Stromstecker', 'Stromstecker')}, und Ihr Netzteil hat ${v.sataPlugs}.`,
      next: 'Dazu gehört ein Netzteil mit mehr Steckern. Verteiler verwenden wir nicht.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie viele Stromstecker für Laufwerke Ihr Netzteil hat.',
    }),
  },
  'storage.bays': {
    fits: () => ({ owner: 'Ihr Gehäuse hat für jedes Laufwerk einen Platz.' }),
    'fits after work': (_, { minutes }) => ({
      owner: 'Die Plätze für kleine Laufwerke sind belegt, und ein großer ist frei.',
      next: `Dort bauen wir das Laufwerk${minutes === undefined ? '' : ` in ${minutes}`} mit einer Halterung ein.`,
    }),
    'does not fit': () => ({
      owner: 'Ihr Gehäuse hat keinen freien Platz für ein Laufwerk dieser Größe.',
      next: LARGER,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie viele Plätze für Laufwerke Ihr Gehäuse hat.' }),
  },
}
