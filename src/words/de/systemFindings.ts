import type { OwnerFindingWords } from '../en/findings.ts'

type Here = Pick<
  OwnerFindingWords,
  | 'system.processor'
  | 'system.trustModule'
  | 'system.secureStart'
  | 'system.memory'
  | 'system.disk'
  | 'swap.licence'
  | 'swap.encryption'
>

/** What the drive may ask for its key after. */
const BEFORE: Readonly<Record<string, string>> = {
  'firmware update': 'einer Firmware-Aktualisierung',
  'new board': 'einem neuen Mainboard',
}

/** The next version of the system, and what a new board means for the installed one. */
export const SYSTEM_DE: Here = {
  'system.processor': {
    fits: () => ({ owner: 'Die Generation Ihres Prozessors steht auf der Liste für das nächste System.' }),
    'does not fit': () => ({
      owner:
        'Ihr Prozessor ist älter als die Liste des Systemherstellers; das nächste System nimmt ihn nicht.',
      next: 'Dafür bräuchten Sie einen anderen Prozessor und oft ein neues Mainboard.',
    }),
    "can't tell": (_, { doubt }) =>
      doubt === undefined
        ? { owner: 'Wir wissen nicht, von welcher Generation Ihr Prozessor ist.' }
        : {
            owner:
              'Manche Prozessoren dieser Generation stehen auf der Liste des Systemherstellers, andere nicht.',
            next: 'Wir suchen Ihr Modell, bevor wir etwas versprechen.',
          },
  },
  'system.trustModule': {
    fits: (v) => ({
      owner: `Ihr Mainboard hat das Vertrauensmodul, das das nächste System verlangt: Version ${v.haveModule}.`,
    }),
    'does not fit': (v) => ({
      owner:
        v.haveModule === 'none'
          ? `Ihr Mainboard zeigt kein Vertrauensmodul, und das nächste System verlangt Version ${v.needModule}.`
          : `Das Vertrauensmodul Ihres Mainboards hat Version ${v.haveModule}, das nächste System verlangt ${v.needModule}.`,
      next:
        v.haveModule === 'none'
          ? 'Sehen Sie zuerst in den Einstellungen des Mainboards nach: Vielleicht ist es dort ausgeschaltet.'
          : '',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, ob Ihr Mainboard das Vertrauensmodul hat, das das nächste System verlangt.',
    }),
  },
  'system.secureStart': {
    fits: () => ({ owner: 'Die Firmware kann so eingestellt werden, wie das nächste System es verlangt.' }),
    'does not fit': () => ({
      owner:
        'Die Firmware kann nicht auf signierte Systeme beschränkt werden; das nächste System verlangt das.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, ob die Firmware auf signierte Systeme beschränkt werden kann.',
    }),
  },
  'system.memory': {
    fits: (v) => ({
      owner: `Das nächste System verlangt ${v.needGB} Speicher, und Ihr Rechner hat ${v.totalGB}.`,
    }),
    'fits after work': (v) => ({
      owner: `Das nächste System verlangt ${v.needGB} Speicher, und Ihr Rechner hat ${v.totalGB}.`,
      next: 'Dazu gehört zuerst mehr Speicher.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie viel Speicher Ihr Rechner hat.' }),
  },
  'system.disk': {
    fits: (v) => ({
      owner: `Das nächste System verlangt ein Laufwerk mit ${v.needGB}, und Ihres hat ${v.driveGB}.`,
    }),
    'fits after work': (v) => ({
      owner: `Das nächste System verlangt ein Laufwerk mit ${v.needGB}, und Ihr größtes hat ${v.driveGB}.`,
      next: 'Dazu gehört zuerst ein größeres Laufwerk.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie groß das Laufwerk in Ihrem Rechner ist.' }),
  },
  'swap.licence': {
    fits: () => ({ owner: 'Ihr System braucht keine Lizenz, ein neues Mainboard ändert dort nichts.' }),
    'fits after work': (v, { minutes }) => ({
      owner:
        v.licence === 'tied to the board'
          ? 'Die Lizenz Ihres Systems bleibt beim alten Mainboard, das neue braucht eine neue Lizenz.'
          : v.licence === 'moves'
            ? 'Die Lizenz Ihres Systems geht mit; sie wird auf dem neuen Mainboard wieder aktiviert.'
            : 'Ihr System wird auf dem neuen Mainboard wieder aktiviert; vielleicht braucht es eine neue Lizenz.',
      next: `${v.licence === 'not known' ? 'Niemand hat nachgesehen, woran Ihre Lizenz gebunden ist. ' : ''}${
        minutes === undefined
          ? 'Das machen wir, bevor Sie ihn zurückbekommen.'
          : `Das machen wir in ${minutes}.`
      }`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, woran die Lizenz Ihres Systems gebunden ist.' }),
  },
  'swap.encryption': {
    fits: () => ({
      owner: 'Ihr Laufwerk ist nicht verschlüsselt, es verlangt keinen Wiederherstellungsschlüssel.',
    }),
    'fits after work': (v) => ({
      owner: `Ihr Laufwerk ist ${v.encrypted === 'ja' || v.encrypted === 'yes' ? '' : 'vielleicht '}verschlüsselt und kann nach ${BEFORE[v.before] ?? 'dieser Änderung'} den Wiederherstellungsschlüssel verlangen.`,
      next: 'Wir halten die Verschlüsselung vorher an. Legen Sie den Wiederherstellungsschlüssel bereit.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob Ihr Laufwerk verschlüsselt ist.' }),
  },
}
