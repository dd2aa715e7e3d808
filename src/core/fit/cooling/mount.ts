import { sameName } from '../names.ts'
import { rule } from '../rule.ts'
import { brings, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Cooler mount: the cooler's list of sockets must name the board's. The holder sits on the board, so a new processor
 * in the same socket changes nothing; a new cooler or a board with another socket does.
 */
export const coolingMount = rule({
  id: 'cooling.mount',
  source: {
    kind: 'common practice',
    text: "cooler's own list of sockets; hole patterns differ (LGA1200 75 mm, LGA1700 78 mm)",
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
  values: ({ coolerSockets }, { socket }) => ({ coolerSockets, boardSocket: socket }),
  verdict: ({ coolerSockets, boardSocket }, s) =>
    coolerSockets.some((socket) => sameName(socket, boardSocket))
      ? 'fits'
      : brings(s, 'cooler')
        ? 'does not fit'
        : 'fits after work',
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'cooler' }] : []),
  cautions: () => ['hot-parts'],
})
