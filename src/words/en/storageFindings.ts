import type { FindingWords } from './findings.ts'
import { howMany, or } from './or.ts'

/** Why a drive has no M.2 socket, by the name of the obstacle. */
const NO_SOCKET: Readonly<Record<string, string>> = {
  key: "The drive's notch does not match an M.2 slot of your board.",
  length: 'No M.2 slot that takes the drive has a screw for its length.',
  interface: 'It plugs in, and your board does not see it: the slot is not wired for such a drive.',
  taken: 'Every M.2 slot that would take the drive is in use.',
  'no socket': 'Your board has no M.2 slot for a drive.',
}

/** Sentences of the rules about drives: sockets, links, ports, plugs and bays. */
export const STORAGE_WORDS: Pick<FindingWords, Extract<keyof FindingWords, `storage.${string}`>> = {
  'storage.m2': {
    fits: (v) => ({
      owner: `The drive goes into your board's M.2 slot ${v.socket}.`,
      builder: `${v.drive} (key ${v.driveKey}, ${v.driveMm}, ${v.speaks}); ${v.placing}`,
    }),
    'does not fit': (v) => ({
      owner: NO_SOCKET[v.obstacle] ?? NO_SOCKET.taken ?? '',
      ...(v.obstacle === 'taken' ? { next: 'A larger drive in place of the old one fits.' } : {}),
      builder: `${v.drive} (key ${v.driveKey}, ${v.driveMm}, ${v.speaks}): ${v.obstacle}; sockets ${or(v.sockets, 'none')}; ${v.placing}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know which M.2 slot your drives sit in, so we do not know which is free.',
      builder: 'M.2 sockets of the board, drives in them',
    }),
  },
  'storage.link': {
    fits: (v) => ({
      owner: `The slot gives the drive all the data road it has: ${v.linkGBps}.`,
      builder: `${v.drive} in ${v.socket}: ${v.linkGBps}`,
    }),
    'fits slower': (v) => ({
      owner: `The drive works at ${v.linkGBps}; it could do ${v.driveGBps}.`,
      next: 'What that costs in a game, only a run can say.',
      builder: `drive gen ${v.driveGen} x${v.driveLanes} in ${v.socket} gen ${v.socketGen} x${v.socketLanes}: ${v.linkGBps}, ${v.lostGBps} lost`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how wide a data road the drive gets.',
      builder: 'link of the drive or of its M.2 socket',
    }),
  },
  'storage.sharing': {
    fits: (v) => ({
      owner: `In slot ${v.socket} the drive takes nothing that your machine uses.`,
      builder: `${v.socket}: ports off ${or(v.portsOff, 'none')} with ${howMany(v.sataDrives, 'SATA drive')}; takes lanes ${v.takesLanes}, left ${v.leftLanes}, in use ${v.usesLanes}`,
    }),
    'fits slower': (v) => ({
      owner: `A drive in slot ${v.socket} takes lanes from the graphics card: ${v.leftLanes} of ${v.usesLanes} are left.`,
      next: 'What that costs in a game, only a run can say.',
      builder: `${v.socket} shares the graphics slot: x${v.leftLanes} of x${v.usesLanes}`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `When slot ${v.socket} is used, these SATA ports go dead: ${v.portsOff}.`,
      next: `We move your drives to live ports${minutes === undefined ? '' : ` in ${minutes}`}.`,
      builder: `${v.socket} turns off ${v.portsOff}; ${v.portsLeft} of ${v.ports} ports left for ${howMany(v.sataDrives, 'drive')}`,
    }),
    'does not fit': (v) => ({
      owner: `When slot ${v.socket} is used, ${v.portsLeft} SATA ports stay alive, and your machine needs ${v.sataDrives}.`,
      builder: `${v.socket} turns off ${v.portsOff}; ${v.portsLeft} of ${v.ports} ports left for ${howMany(v.sataDrives, 'drive')}`,
    }),
    "can't tell": () => ({
      owner: 'On your board a drive takes something from others, and we do not know what that costs here.',
      builder: 'what the M.2 socket shares: ports, lanes',
    }),
  },
  'storage.ports': {
    fits: (v) => ({
      owner: `There is a SATA port for each drive: ${v.sataDrives} of ${v.ports} are then in use.`,
      builder: `SATA ${v.sataDrives} of ${v.ports}; off ${or(v.portsOff, 'none')}`,
    }),
    'does not fit': (v) => ({
      owner: `It needs ${howMany(v.sataDrives, 'SATA port')} in all, and your board has ${v.ports}${v.offMost === '0' ? '' : `, of which ${v.offMost} are dead beside its M.2 drives`}.`,
      next: 'A larger drive in place of the old one fits.',
      builder: `SATA ${v.sataDrives} of ${v.ports}; off ${or(v.portsOff, 'none')}`,
    }),
    "can't tell": (_, { doubt }) =>
      doubt === undefined
        ? {
            owner: 'We do not know how many SATA ports of your board are free.',
            builder: 'SATA ports of the board, those that M.2 sockets turn off',
          }
        : {
            owner: 'This drive needs a port of its own kind, and we do not know whether your board has one.',
            next: "We read your board's manual before we promise anything.",
            builder: 'port for a 2.5-inch PCIe drive',
          },
  },
  'storage.power': {
    fits: (v) => ({
      owner: `Your supply has a power plug for each drive: ${v.plugDrives} of ${v.sataPlugs} are then in use.`,
      builder: `SATA power ${v.plugDrives} of ${v.sataPlugs}`,
    }),
    'fits after work': (v) => ({
      owner: `Your drives need ${howMany(v.plugDrives, 'power plug')}, and your supply has ${v.sataPlugs}.`,
      next: 'It needs a supply with more plugs. We use no splitters.',
      builder: `SATA power ${v.plugDrives} > ${v.sataPlugs}; no splitters`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how many power plugs for drives your supply has.',
      builder: 'SATA power plugs of the supply',
    }),
  },
  'storage.bays': {
    fits: (v) => ({
      owner: 'Your case has a place for each drive.',
      builder: `2.5-inch ${v.small} in ${v.bays25}, 3.5-inch ${v.large} in ${v.bays35}`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: 'The places for small drives are in use, and a large one is free.',
      next: `We fit the drive there with a bracket${minutes === undefined ? '' : ` in ${minutes}`}.`,
      builder: `2.5-inch ${v.small} in ${v.bays25}, 3.5-inch ${v.large} in ${v.bays35}: ${v.brackets} with bracket`,
    }),
    'does not fit': (v) => ({
      owner: 'Your case has no free place for a drive of that size.',
      next: 'A larger drive in place of the old one fits.',
      builder: `2.5-inch ${v.small} in ${v.bays25}, 3.5-inch ${v.large} in ${v.bays35}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how many places for drives your case has.',
      builder: 'drive bays of the case',
    }),
  },
}
