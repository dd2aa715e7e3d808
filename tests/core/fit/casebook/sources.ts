/** Documents the book cites. The document, never a reprint of it. */
export const CITED = {
  practice: 'common practice',
  boardList: "the board maker's processor list (generation and first firmware version)",
  lga1151:
    'Intel, 6th/7th and 8th/9th generation LGA1151 platforms: 100/200 and 300 series are separate families',
  intelSockets:
    'Intel desktop processor datasheets vol. 1, package and socket; AMD socket AM4 and AM5 specifications',
  intel400: 'Intel statement on 400 series chipsets: H410 and B460 exclude 11th generation processors',
  intel500: 'Intel 500 series chipset product pages, supported processors',
  intel300: 'Intel 300 series chipset product pages, supported processors',
  intel600: 'Intel 600/700 series chipset product pages, supported processors',
  intel89: 'Intel 8/9 series chipset product pages, supported processors',
  am4: 'AMD socket AM4 chipset and processor support chart (2020), with the later Ryzen 5000 statements',
  am5: 'AMD socket AM5 chipset product pages',
  unit: 'Intel and AMD product pages, processor graphics row',
  turbo:
    'Intel datasheets vol. 1, Package Power Control (PL2); AMD, PPT = 1.35 x TDP (statement of 2022-05-26)',
  rates: 'Intel product pages, memory types row',
  amdRates: 'AMD product pages, max memory speed by population',
  memOc: 'Intel chipset product pages, memory overclocking; AMD AM4/AM5 chipset pages',
  capacity: 'Intel product pages, max memory size row; the board page',
  jedec3: 'JEDEC JESD79-3 and JESD79-3-1 (DDR3 1.5 V, DDR3L 1.35 V and 1.5 V)',
  jedecKeys: 'JEDEC JESD79-3, -4, -5 and the module outlines MO-269, MO-309, MO-329: keys differ',
  mixing: 'Intel support article 000088926 (identical part numbers)',
  channels: 'Intel datasheets vol. 1, system memory organisation modes (flex mode)',
  alder: 'Intel 655258, 12th generation datasheet vol. 1, Memory Controller',
  arrow: 'Intel Core Ultra 200S datasheet vol. 1, memory rates by slots and modules',
  link: 'PCI Express Base Specification, link training: lower generation, lower width; rates and coding per generation',
  dmi: 'DMTF DSP0134 (SMBIOS) types 4, 9, 16: the values are what the firmware writes, not a promise',
  slot: 'ATX Specification 2.x, expansion slot spacing 20.32 mm',
  tape: 'common practice: a tape measure in the machine beats the data sheet',
  cem: 'PCI Express CEM: 75 W from the slot, 75 W per 2x3, 150 W per 2x4 plug',
  sense: 'Intel 336521, Tables 5-5 and 5-6: 2x4 sense pins, a 2x3 plug in a 2x4 socket gives 75 W',
  budget: 'Intel 336521, PCIe Add-in Card and PSU Power Budgets; shop policy 80 % and 50 W',
  forms: 'ATX, microATX and Mini-ITX specifications, board outlines; Intel 336521, supply outlines',
  office: 'common practice: brand-name office machines may use boards and plugs of their own',
  processorRail:
    'Intel 336521, Table 2-1: processor current by class (35, 65, 125, 165 W), continuous and for 10 ms, at 11.2 V',
  excursion:
    'Intel 336521, Table 3-3: peaks of 100 us in % of the rated power; Table 4-3: steps to 300 % on the card rails',
  cardClasses:
    'PCI Express CEM, card classes up to 300 W; Intel 336521, Table 3-3; older guides oblige to the rating only',
  supplyAge: 'shop policy: 80 % of the 12 V figure up to 5 years, then 2 points less a year',
  pin16:
    'Intel 336521, SENSE0 and SENSE1: 150, 300, 450 or 600 W by plug, slot share not counted; PCI Express CEM: 75 W from the slot',
  cardCable: 'PCI Express CEM: 150 W per 2x4 plug, 75 W from the slot; common practice: one cable a socket',
  supplyForms:
    'Intel 336521, supply outlines (PS/2 150 x 86 x 140, SFX 125 x 63.5 x 100, TFX 85 x 65 x 175 mm); SFX-L is a trade form',
  supplyLength:
    'Intel 336521, PS/2 outline 150 x 86 x 140 mm; common practice: longer units are sold, the cage decides',
  line: 'common practice: in small cases supply and card lie in one line',
  mounts:
    'Intel LGA1200 and LGA1700 cooler holes 75 x 75 and 78 x 78 mm; AMD AM4 and AM5 54 x 90 mm, fixed back plate on AM5; the maker of the cooler lists the sockets',
  coolerRoom: 'common practice: height of the cooler against the free height of the case',
  moduleHeight:
    'JEDEC MO-309 and MO-329: a bare module is 31.25 mm; common practice: heat spreaders are higher',
  radiator:
    'common practice: radiators go where the case lists their size; in front they take length from the card',
  theta:
    'JEDEC JESD51-1 and JESD51-2A: thermal resistance = (temperature - ambient) / power; shop policy 5 K margin',
  junction:
    'Intel and AMD product pages, maximum junction or operating temperature; JEDEC JESD51-1; shop policy 5 K margin',
  coolerRating: "common practice: the cooler's rating in W against the sustained limit (PL2, PPT)",
  towerCooler:
    'common practice: an entry-level tower cooler holds 65 W near 75 °C in a room of 30 °C; JEDEC JESD51-1; shop policy 5 K margin',
  m2Keys:
    'PCI-SIG M.2 specification, mechanical keys B, E and M: B up to two lanes or SATA, M up to four, E is for wireless cards',
  m2Wiring:
    "PCI-SIG M.2 specification: the key does not say whether SATA or PCIe is wired; the board maker's manual does",
  m2Sizes:
    'PCI-SIG M.2 specification, modules 2230, 2242, 2260, 2280, 22110: 22 mm wide, length in the other figures',
  m2List: "the board maker's manual, table of M.2 sockets",
  m2Sharing: "the board maker's manual, M.2 sockets that share lanes with SATA ports or the graphics slot",
  h610Lanes: 'Intel 600 series chipset product pages: H610 has no processor lanes for an M.2 socket',
  sataPort: 'Serial ATA specification: one drive a port; an M.2 drive is wired through its socket',
  sataPower: 'Serial ATA specification, power plug; common practice: plugs over all cables of the supply',
  bays: 'SFF-8201 (2.5-inch, 69.85 x 100.45 mm) and SFF-8301 (3.5-inch, 101.6 x 147 mm)',
  boardHoles:
    'microATX Motherboard Interface Specification 1.2, Figure 2; Mini-ITX Addendum 1.1, 2.4.1: holes C, F, H, J',
  fanPlaces:
    'common practice: fan holes 105 mm apart for 120 mm, 124.5 mm for 140 mm; the data sheet of the case',
  frontPanel:
    'Intel front panel I/O and front panel audio design guides; USB 3 internal header of 19 pins; USB-C header key A',
  licence: 'the licence terms of the installed system; common practice',
  encryption:
    'Microsoft, Suspend-BitLocker: suspend protection before firmware changes; common practice: recovery key at hand',
  nextSystem:
    'Microsoft, Windows 11 specifications and lists of supported processors: TPM 2.0, secure boot capable, 4 GB, 64 GB',
  wholeSwap: 'common practice: with a new board everything that stays is looked at again',
} as const
