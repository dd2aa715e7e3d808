/** Warm paper, dark ink, one copper accent; a tone for each verdict. Same names in light and dark. */
export const LIGHT = {
  paper: '#f6f1e7',
  card: '#fdfaf3',
  lead: '#f5e9dc',
  line: '#d9cfbd',
  rule: '#857a66',
  ink: '#20262b',
  soft: '#5a5f60',
  copper: '#9a4a24',
  onCopper: '#ffffff',
  verdigris: '#25655a',
  brass: '#7a5c0c',
  slate: '#4f5b66',
  oxide: '#8a2e2a',
} as const

export type Colour = keyof typeof LIGHT

export const DARK: Readonly<Record<Colour, string>> = {
  paper: '#1b1f22',
  card: '#22272b',
  lead: '#33291f',
  line: '#3b4146',
  rule: '#8b8b85',
  ink: '#ece5d8',
  soft: '#b1afa7',
  copper: '#dd8e5f',
  onCopper: '#1b1f22',
  verdigris: '#7fc4b3',
  brass: '#d9b455',
  slate: '#a9b6c3',
  oxide: '#ea8d86',
}

/**
 * Rules that repaint the mail: text t-, ground g-, border b-. MJML's own elements keep a light ground inline, so the
 * article, the bordered wrapper and the button have rules of their own.
 */
export function darkRules(prefix = ''): string {
  const important = (property: string, value: string) => `${property}: ${value} !important;`
  const ground = (hex: string) => `${important('background', hex)} ${important('background-color', hex)}`
  const own = Object.entries(DARK).flatMap(([name, hex]) => [
    `${prefix}.t-${name}, ${prefix}.t-${name} > div { ${important('color', hex)} }`,
    `${prefix}.g-${name}, ${prefix}.card.g-${name} > table { ${ground(hex)} }`,
    `${prefix}.b-${name} { ${important('border-color', hex)} }`,
  ])
  return [
    ...own,
    `${prefix}div[role="article"] { ${ground(DARK.paper)} }`,
    `${prefix}.card > table > tbody > tr > td { ${important('border-color', DARK.line)} }`,
    `${prefix}a { ${important('color', DARK.copper)} }`,
    `${prefix}.btn td { ${ground(DARK.copper)} }`,
    `${prefix}.btn a { ${ground(DARK.copper)} ${important('color', DARK.onCopper)} }`,
  ].join('\n')
}

export const FIGURE_FONT =
  "ui-monospace,'SF Mono','Cascadia Mono',Menlo,Consolas,'DejaVu Sans Mono',monospace"
