/** Words among figures. */
export const FIGURES_EN = {
  noPlugs: 'no card plugs',
  yes: 'yes',
  no: 'no',
  years: 'years',
  plugs: { pin16: '16-pin', pin8: '8-pin', pin6: '6-pin' },
  /** Values that are words, where another language has its own. */
  texts: {} as Readonly<Record<string, string>>,
  load: '{load} at {room} room, {power}',
}
