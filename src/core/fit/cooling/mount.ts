import { sameName } from '../names.ts'
import { rule } from '../rule.ts'
import { brings, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Cooler mount: a kit for the board's socket must be in the box, or its maker must have one. The holder sits on the
 * board, so a new processor in the same socket changes nothing; a new cooler or a board with another socket does.
 *
 *   in the box         fits
 *   kit of its maker   fits after work: the kit is fitted
 *   none               a new cooler does not fit; an old one, whose board changes, has to go
 */
export const coolingMount = rule({
  id: 'cooling.mount',
  source: {
    kind: 'common practice',
    text: "cooler's own lists of sockets; hole patterns differ (LGA1150 to LGA1200 75 mm, LGA1700 and LGA1851 78 mm; AM4 and AM5 share one)",
  },
  reads: ['socket'],
  verdicts: ['fits', 'fits after work', 'does not fit'],
  applies: (s) => {
    const [had, has] = [s.before.board?.socket, s.after.board?.socket]
    const otherSocket = had === undefined || has === undefined || !sameName(had, has)
    return touches(s, 'cooler') ? s.after.cooler !== undefined : touches(s, 'board') && otherSocket
  },
  about: ({ after }) => after.cooler,
  specs: ({ after }) => ({ coolerSockets: spec(after.cooler, 'cooler', 'sockets') }),
  values: ({ coolerSockets }, { socket }, { after }) => {
    const kitSockets = after.cooler?.kitSockets ?? []
    return { coolerSockets, kitSockets, boardSocket: socket, kit: kitOf(coolerSockets, kitSockets, socket) }
  },
  verdict: ({ kit }, s) => {
    if (kit === 'in the box') return 'fits'
    return kit === 'none' && brings(s, 'cooler') ? 'does not fit' : 'fits after work'
  },
  needs: ({ kit }, verdict) => {
    if (verdict !== 'fits after work') return []
    return kit === 'none' ? [{ part: 'cooler' }] : [{ work: 'mounting kit' }]
  },
  cautions: () => ['hot-parts'],
})

function kitOf(inBox: readonly string[], ofMaker: readonly string[], board: string) {
  const isFor = (socket: string) => sameName(socket, board)
  return inBox.some(isFor) ? 'in the box' : ofMaker.some(isFor) ? 'kit of its maker' : 'none'
}
