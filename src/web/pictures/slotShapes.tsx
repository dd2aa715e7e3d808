/** A place of the drawing, told apart by shape alone: filled, open or dashed, with peg, hole or dashed hole. */
export const SHAPE = { taken: 'in', free: 'open', "can't tell": 'tell', off: 'off' } as const
export type Drawn = keyof typeof SHAPE

/** Peg in its hole, hole, dashed hole; a port that is off is crossed out. */
export const Peg = ({ x, y, state, r = 6 }: { x: number; y: number; state: Drawn; r?: number }) => (
  <g class={`peg ${SHAPE[state]}`}>
    <circle cx={x} cy={y} r={r} />
    {state === 'taken' && <circle class="dot" cx={x} cy={y} r={r / 2} />}
    {state === 'off' && <path d={`M${x - r} ${y - r}l${2 * r} ${2 * r}m0 ${-2 * r}l${-2 * r} ${2 * r}`} />}
  </g>
)

export const Box = (props: { x: number; y: number; w: number; h: number; state: Drawn }) => (
  <rect
    class={`place ${SHAPE[props.state]}`}
    x={props.x}
    y={props.y}
    width={props.w}
    height={props.h}
    rx="2"
  />
)

type WordsProps = { x: number; y: number; text: string; soft?: true; mid?: true; up?: true }

/** Words of the drawing; `up` stands them on end in a memory slot. */
export const Words = ({ x, y, text, soft, mid, up }: WordsProps) => (
  <text
    class={soft && 'label'}
    x={x}
    y={y}
    text-anchor={mid && 'middle'}
    transform={up && `rotate(-90 ${x} ${y})`}
  >
    {text}
  </text>
)

/** A word that somebody typed, cut to the room it has; the table has it whole. */
export const cut = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1)}…`
