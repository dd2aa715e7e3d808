import type { Child } from 'hono/jsx'
import type { TapePlace } from '../core/sale/tapeMeasure.ts'
import { TAPE_EN } from '../words/en/tapeMeasure.ts'

const w = TAPE_EN.drawn

/** Drawn for a phone: never scaled, so that its words stay as large as those around it. */
const WIDTH = 300
const HEIGHT = 160

const Sketch = ({ place, children }: { place: TapePlace; children: Child }) => (
  <svg
    class="sketch"
    width={WIDTH}
    height={HEIGHT}
    role="img"
    aria-label={`${TAPE_EN.picture}: ${TAPE_EN.places[place].where}`}
  >
    {children}
  </svg>
)

/** A dimension line with a stroke at both ends. */
const Across = ({ x1, x2, y }: { x1: number; x2: number; y: number }) => (
  <g class="measure">
    <line x1={x1} x2={x2} y1={y} y2={y} />
    <line x1={x1} x2={x1} y1={y - 8} y2={y + 8} />
    <line x1={x2} x2={x2} y1={y - 8} y2={y + 8} />
  </g>
)
const Up = ({ x, y1, y2 }: { x: number; y1: number; y2: number }) => (
  <g class="measure">
    <line x1={x} x2={x} y1={y1} y2={y2} />
    <line x1={x - 8} x2={x + 8} y1={y1} y2={y1} />
    <line x1={x - 8} x2={x + 8} y1={y2} y2={y2} />
  </g>
)

/** The case from the side: slot bracket at the back, fan at the front. */
const CardLength = () => (
  <Sketch place="card length">
    <rect class="wall" x="10" y="8" width="280" height="140" />
    <rect class="piece" x="22" y="18" width="160" height="66" />
    <text x="32" y="38">
      {w.board}
    </text>
    <rect class="solid" x="10" y="62" width="6" height="58" />
    <text x="22" y="140">
      {w.bracket}
    </text>
    <rect class="lent" x="18" y="68" width="170" height="22" />
    <text x="30" y="84">
      {w.card}
    </text>
    <rect class="piece" x="252" y="42" width="26" height="84" />
    <circle class="piece" cx="265" cy="84" r="10" />
    <text x="250" y="34">
      {w.fan}
    </text>
    <Across x1={16} x2={252} y={108} />
    <text class="strong" x="110" y="128">
      {w.length}
    </text>
  </Sketch>
)

/** Board and side panel from above. */
const CoolerHeight = () => (
  <Sketch place="cooler height">
    <rect class="solid" x="20" y="138" width="260" height="6" />
    <text x="206" y="132">
      {w.board}
    </text>
    <rect class="piece" x="100" y="126" width="72" height="12" />
    <text x="16" y="132">
      {w.processor}
    </text>
    <rect class="lent" x="106" y="46" width="60" height="80" />
    <rect class="solid" x="20" y="14" width="260" height="4" />
    <text x="20" y="34">
      {w.panel}
    </text>
    <Up x={188} y1={18} y2={126} />
    <text class="strong" x="200" y="78">
      {w.height}
    </text>
  </Sketch>
)

/** The label as makers print it: a column for each voltage, the power below. */
const SupplyLabel = () => (
  <Sketch place="supply label">
    <rect class="wall" x="10" y="8" width="280" height="144" />
    {[66, 122].map((x) => (
      <line class="rule" x1={x} x2={x} y1="20" y2="110" />
    ))}
    <line class="rule" x1="214" x2="214" y1="20" y2="110" />
    {[50, 80, 110].map((y) => (
      <line class="rule" x1="10" x2="290" y1={y} y2={y} />
    ))}
    <text x="20" y="40">
      3.3 V
    </text>
    <text x="80" y="40">
      5 V
    </text>
    <text class="strong" x="146" y="40">
      {w.volts}
    </text>
    <text x="226" y="40">
      −12 V
    </text>
    <rect class="found" x="126" y="84" width="84" height="22" />
    <text class="strong" x="140" y="100">
      {w.watts}
    </text>
    <rect class="found" x="98" y="118" width="104" height="26" />
    <text class="strong" x="114" y="136">
      {w.total}
    </text>
  </Sketch>
)

const CELL = 11

/** Contacts of a plug, so many in a row. */
const Plug = ({ x, y, columns, rows }: { x: number; y: number; columns: number; rows: number }) => (
  <g>
    <rect class="piece" x={x - 3} y={y - 3} width={columns * CELL + 6} height={rows * CELL + 6} />
    {Array.from({ length: columns * rows }, (_, i) => (
      <rect
        class="solid"
        x={x + (i % columns) * CELL + 2}
        y={y + Math.floor(i / columns) * CELL + 2}
        width={CELL - 4}
        height={CELL - 4}
      />
    ))}
  </g>
)

/** Plugs from the front, by their contacts. */
const SupplyPlugs = () => (
  <Sketch place="supply plugs">
    <text x="10" y="20">
      {w.card}
    </text>
    <Plug x={14} y={32} columns={3} rows={2} />
    <text x="14" y="76">
      6
    </text>
    <Plug x={72} y={32} columns={4} rows={2} />
    <text x="74" y="76">
      8
    </text>
    <Plug x={142} y={32} columns={6} rows={2} />
    <Plug x={153} y={60} columns={4} rows={1} />
    <text x="222" y="62">
      16
    </text>
    <text x="10" y="106">
      {w.processor}
    </text>
    <Plug x={14} y={116} columns={2} rows={2} />
    <Plug x={44} y={116} columns={2} rows={2} />
    <text x="78" y="132">
      4+4
    </text>
    <text x="160" y="106">
      {w.drive}
    </text>
    <path class="piece" d="M160 116h92v14h-80v10h-12z" />
  </Sketch>
)

/** Drives from the front: large ones above, small ones below. */
const Bays = () => (
  <Sketch place="bays">
    {[14, 46].map((y) => (
      <rect class="piece" x="20" y={y} width="150" height="26" />
    ))}
    <text x="184" y="48">
      {w.large}
    </text>
    {[92, 118].map((y) => (
      <rect class="piece" x="20" y={y} width="104" height="18" />
    ))}
    <text x="138" y="118">
      {w.small}
    </text>
    <g class="measure">
      <path d="M12 14v58M12 92v44" />
    </g>
  </Sketch>
)

/** Our own drawing of where to put the tape, or what to look for. */
export const TAPE_DRAWINGS: Record<TapePlace, () => Child> = {
  'card length': CardLength,
  'cooler height': CoolerHeight,
  'supply label': SupplyLabel,
  'supply plugs': SupplyPlugs,
  bays: Bays,
}
