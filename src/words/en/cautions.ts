import type { CautionId } from '../../core/fit/finding.ts'

/** A caution is an order; the long form adds how and why. */
export type CautionWords = { readonly short: string; readonly long: string }

/** From service manuals, repair handbooks and common practice; some of it from memory. */
export const CAUTION_WORDS: Readonly<Record<CautionId, CautionWords>> = {
  unplug: {
    short: 'Shut down. Switch the supply off. Pull the mains plug and every other cable.',
    long: 'Shut the machine down, switch the supply off at its back, and pull the mains plug. Unplug displays and other powered cables too.',
  },
  discharge: {
    short: 'With the plug out, hold the power button for 5 seconds.',
    long: 'With the plug out, hold the power button for 5 seconds. That empties what the supply still holds for the board.',
  },
  'psu-closed': {
    short: 'Never open the power supply.',
    long: 'Never open the power supply. Parts inside can kill, even after it was switched off. Do not push metal through its openings.',
  },
  'psu-cables': {
    short: 'Never use a cable from another supply model, even if its plug fits.',
    long: 'Never use a cable from another supply model. The plug may fit while its wires are ordered differently. That destroys drives and boards. Use only the cables that came with this supply.',
  },
  esd: {
    short: 'Touch bare metal of the case. Hold cards by their edges.',
    long: 'Work on a bare table, touch earthed metal or wear a wrist strap. Keep parts in their bags until they go in.',
  },
  'one-cable': {
    short: 'Give each socket of the card a cable of its own.',
    long: 'Give each socket of the card a cable of its own. Two plugs in a row share one cable, and that cable gets hot.',
  },
  'seat-connector': {
    short: 'Push the 16-pin plug fully home. No sharp bend near it.',
    long: 'Push the 16-pin plug fully home. Leave about 35 mm straight behind the plug.',
  },
  'hot-parts': {
    short: 'Let it cool first. Edges and fan blades cut.',
    long: 'The card and the cooler stay hot after use. Let them cool first. Edges and fan blades cut.',
  },
  backup: {
    short: 'Copy your files to another drive first.',
    long: 'Copy your files to another drive first. A change of drive, board, processor or firmware can cost your data.',
  },
  'recovery-key': {
    short: 'Is your disk encrypted? Write down its recovery key, the code that unlocks it, before you start.',
    long: 'If your disk is encrypted, a firmware or board change can make the system ask for its recovery key. Find the key and pause the protection. Switch it on again at once afterwards.',
  },
  'no-power-loss': {
    short: 'Never cut the power during a firmware update.',
    long: 'Never cut the power during a firmware update. Use the file for exactly this board and revision. Not in a thunderstorm.',
  },
  'one-way': {
    short: 'Some updates cannot be undone.',
    long: 'Some updates cannot be undone: take it that this one is of that kind. It may end support for older processors. Do it with the processor that is in now.',
  },
  proprietary: {
    short: 'Brand-name office PC? Ask us before changing board or supply.',
    long: 'Brand-name office PC? Ask us before changing board or supply. Some use plugs that look standard and are wired differently.',
  },
  defer: {
    short:
      'A burnt smell, liquid inside or a hot plug: stop, and touch none of it. Switch off at the wall or the fuse if you can do so safely, and write to us. Smoke or fire: get away, and call the emergency number.',
    long: 'A burnt smell, liquid inside or a hot plug: stop, and touch none of it. Switch off at the wall or the fuse if you can do so safely, and write to us. Smoke or fire: get away, and call the emergency number. Wall sockets and house wiring are for a licensed electrician.',
  },
}
