/** Words among figures. */
export const FIGURES_EN = {
  noPlugs: 'no card plugs',
  yes: 'yes',
  no: 'no',
  years: 'years',
  load: '{load} at {room} room, {power}',
}
