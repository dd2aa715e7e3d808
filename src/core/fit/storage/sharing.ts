import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { isUsable } from '../spec.ts'
import { sataDrives } from './drives.ts'
import { isSeated } from './m2.ts'
import { bareDrives, LANE_LIMITS, lanesInUse, placingsOf, toPlace } from './placing.ts'
import { missingFigures, socketsOf } from './sockets.ts'

/**
 * What an M.2 drive takes from others in the socket it lands in, by the board's manual:
 *
 *   SATA ports go dead     drives on cables move to live ones; too few left: does not fit
 *   lanes of the card go   slower, where fewer are left than the card uses today
 *
 * Ports and lanes that drives take today already count nothing. Judged on boards that list any sharing, where every
 * drive has a socket. The one rule about lanes when drives are placed; graphics.sharing speaks when only the card
 * changes.
 */
export const storageSharing = rule({
  id: 'storage.sharing',
  source: {
    kind: 'vendor',
    text: "board's manual: SATA ports that an M.2 socket turns off, lanes it takes from the graphics slot",
  },
  reads: [],
  mayRead: ['sataPorts', ...LANE_LIMITS],
  verdicts: ['fits', 'fits slower', 'fits after work', 'does not fit'],
  applies: (s) =>
    isSeated(s) &&
    socketsOf(s.after.board)?.some(
      (one) => one.sharesSlot === true || (one.sataPortsOff ?? []).length > 0,
    ) === true,
  about: (s) => toPlace(s)[0],
  specs: () => ({}),
  values: (_, { sataPorts, ...lanes }, s) => {
    const ways = placingsOf(s, lanes)
    const [first] = ways
    const off = first?.newlyOff ?? []
    const sata = sataDrives(s.after).length
    const uses = lanesInUse(s, lanes)
    const taker = first?.fresh.find(
      ({ socket }) =>
        socket?.sharesSlot === true || socket?.sataPortsOff?.some((port) => off.includes(port)) === true,
    )
    return {
      socket: (taker ?? first?.fresh[0])?.socket?.name ?? 'none',
      portsOff: off,
      sataDrives: sata,
      ports: sataPorts ?? UNKNOWN,
      portsLeft: sataPorts === undefined ? UNKNOWN : Math.max(0, sataPorts - (first?.off.length ?? 0)),
      takesLanes: first?.newlyShares === true && s.after.card !== undefined,
      leftLanes: lanes.slotLanesShared ?? UNKNOWN,
      usesLanes: Number.isFinite(uses) ? uses : UNKNOWN,
      endsKnown: lanes.slotLanes !== undefined && lanes.processorPcieLanes !== undefined,
      ways: new Set(ways.map((way) => JSON.stringify([way.newlyOff, way.newlyShares]))).size,
    }
  },
  doubts: ({ portsOff, sataDrives, ports, takesLanes, leftLanes, usesLanes, endsKnown, ways }, s) => {
    const missing: Missing[] = ways > 1 ? bareDrives(s).flatMap(missingFigures) : []
    if (portsOff.length > 0 && sataDrives > 0 && ports === UNKNOWN) missing.push({ limit: 'sataPorts' })
    if (!takesLanes) return missing
    const { card } = s.after
    if (leftLanes === UNKNOWN) missing.push({ limit: 'slotLanesShared' })
    else if (usesLanes === UNKNOWN || Number(leftLanes) < Number(usesLanes)) {
      if (card !== undefined && !isUsable(card.pcieLanes))
        missing.push({ spec: 'pcieLanes', partId: card.id, partName: card.name })
      if (!endsKnown) missing.push({ limit: 'slotLanes' }, { limit: 'processorPcieLanes' })
    }
    return missing
  },
  verdict: ({ portsOff, sataDrives, portsLeft, takesLanes, leftLanes, usesLanes }) => {
    if (portsOff.length > 0 && sataDrives > 0)
      return Number(portsLeft) >= sataDrives ? 'fits after work' : 'does not fit'
    return takesLanes && Number(leftLanes) < Number(usesLanes) ? 'fits slower' : 'fits'
  },
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'move drive cables' }] : []),
  cautions: (_, verdict) => (verdict === 'fits after work' ? ['esd', 'backup'] : []),
})

const UNKNOWN = 'not known'
