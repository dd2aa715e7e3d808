/** What each example asks of the demo shop, by endpoint; those that write come after those that read. */
export const EXAMPLE_ASKS: Readonly<Record<string, { readonly ask: string; readonly body?: unknown }>> = {
  listMachines: { ask: '/machines?q=M-02&limit=20' },
  getMachine: { ask: '/machines/M-0207' },
  listParts: { ask: '/parts?kind=card&limit=20' },
  getPart: { ask: '/parts/CRD-GIMLET4' },
  listShelf: { ask: '/shelf?kind=memory' },
  listFindable: { ask: '/findable?limit=2' },
  listRuns: { ask: '/runs?machine=M-0207' },
  listOddRuns: { ask: '/runs/odd?limit=2' },
  listTitles: { ask: '/titles' },
  listSettings: { ask: '/settings' },
  getShop: { ask: '/shop' },
  listQuestions: { ask: '/questions?state=new' },
  getQuestion: { ask: '/questions/Q-0301' },
  answerQuestion: { ask: '/questions/Q-0301/answer' },
  rankQuestion: { ask: '/questions/Q-0301/ranking' },
  whyNot: { ask: '/questions/Q-0302/why-not?item=S-605' },
  listJobs: { ask: '/jobs' },
  listRounds: { ask: '/rounds?limit=2' },
  listSales: { ask: '/sales?limit=2' },
  listRules: { ask: '/rules?limit=1' },
  fit: {
    ask: '/fit',
    body: {
      machine: {
        parts: [
          {
            ...{ kind: 'board', id: 'b', name: 'our H410 board', socket: 'LGA1200', chipset: 'H410' },
            ...{ memoryType: 'DDR4', memorySlots: 2, memoryPerSlotMaxGB: 32 },
          },
          {
            ...{ kind: 'processor', id: 'p', name: 'four cores', socket: 'LGA1200' },
            ...{ generation: '10th (Comet Lake)', processorClass: 'i3' },
          },
        ],
      },
      change: {
        add: [
          {
            ...{ kind: 'memory', id: 'k', name: '2x8 GB DDR4-3200', memoryType: 'DDR4', form: 'DIMM' },
            ...{ modules: 2, moduleGB: 8, rateMts: 3200 },
          },
        ],
      },
    },
  },
  addMachine: {
    ask: '/machines',
    body: {
      ...{ tag: 'M-0300', ownerName: 'Invented Owner', soldOn: '2026-11-02' },
      parts: [
        { kind: 'processor', name: 'i5-10400F' },
        { kind: 'memory', name: '2x8 GB DDR4-3200' },
      ],
      limits: [{ key: 'cardRoomMm', value: 310, source: 'measured' }],
    },
  },
  describePart: {
    ask: '/parts/CRD-GIMLET4',
    body: {
      ...{ kind: 'card', id: 'CRD-GIMLET4', name: 'Hobbin Gimlet 4G', lengthMm: 204, thicknessMm: 38 },
      ...{ memoryGB: 4, boardPowerW: 120, plugs: { pin6: 1, pin8: 0, pin16: 0 }, pcieGen: 3, pcieLanes: 16 },
    },
  },
  recordLimit: {
    ask: '/machines/M-0207/limits',
    body: { key: 'coolerRoomMm', value: 158, source: 'measured', note: 'tape, from the socket' },
  },
  takeQuestion: {
    ask: '/questions',
    body: {
      ...{ machine: 'M-0207', words: 'Is there anything for 150?', budgetMinor: 15_000 },
      wanted: [{ titleId: 'saffron', settingId: '1080-high' }],
      display: { widthPx: 1920, heightPx: 1080, refreshHz: 75 },
    },
  },
  changeQuestion: {
    ask: '/questions/Q-0301',
    body: {
      ...{ words: 'Is there anything for 200, for three games?', budgetMinor: 20_000 },
      wanted: [{ titleId: 'saffron', settingId: '1080-high', weight: 2 }],
      display: { widthPx: 1920, heightPx: 1080, refreshHz: 75 },
    },
  },
}
