/**
 * Every source that a number, a check or a finding names by key.
 * The note says which part is used and how the value was seen; nobody here claims to have the standard itself at hand.
 */

export type SourceGrade =
  /** value seen in print: the standard, a table from it, a maker's sheet, an open data set */
  | 'published'
  /** follows from the definitions by mathematics */
  | 'closed form'
  /** known to the authors, not seen in print for this project: confirm before relying on it */
  | 'from memory'
  /** what the trade does; no source to cite */
  | 'common practice';

export interface Source { readonly title: string; readonly note: string; readonly grade: SourceGrade }

export const sources: ReadonlyMap<string, Source> = new Map<string, Source>([
  ['abyc-e-11', { title: 'ABYC E-11, AC and DC electrical systems on boats, tables IX and X', note: 'Rows of the 3 % table and the 3 %/10 % rule seen in suppliers’ reprints; the formula CM = 10.75 I L/E from memory.', grade: 'published' }],
  ['astm-b258', { title: 'ASTM B258, Standard nominal diameters and cross-sectional areas of AWG sizes', note: 'Formula of the diameters seen on secondary pages; areas follow from it.', grade: 'published' }],
  ['bs-638-4', { title: 'BS 638-4:1979, Arc welding power sources, equipment and accessories: welding cables', note: 'Type 0361TQ diameters, thickness, bend radius and masses seen on makers’ sheets and in a handbook table.', grade: 'published' }],
  ['bs-7671', { title: 'BS 7671, Requirements for electrical installations, tables 4F2A, 4E1A, 43.1, 54.2 to 54.4, 4C1', note: 'Current of flexible cables with ambient factors (4F2A) and final temperatures seen in reprints (one 115 °C is misprinted there as 150 °C; the two-core columns slip from 35 mm² on and are not used). Table 4C1 grouping factors from memory.', grade: 'published' }],
  ['cda-pub-22', { title: 'Copper Development Association, Publication 22, Copper for busbars, section 10', note: 'Rating formulas of single flat and round bars and their worked examples.', grade: 'published' }],
  ['closed-form', { title: 'Closed form', note: 'Derived in the file that names it, and checked there against numerical integration.', grade: 'closed form' }],
  ['common-practice', { title: 'Common practice, no source', note: 'What the trade usually does or finds. It says what is usual and proves nothing.', grade: 'common practice' }],
  ['din-43671', { title: 'DIN 43671, Copper bus bars: design for continuous current', note: 'Reference condition seen (35 °C air, 65 °C bar); rows from memory only, so they are no check here.', grade: 'from memory' }],
  ['en-50618', { title: 'EN 50618, Electric cables for photovoltaic systems, table A.3', note: 'Currents of single H1Z2Z2-K cables in free air at 60 °C, conductor 120 °C; from memory.', grade: 'from memory' }],
  ['fmvss-305', { title: '49 CFR 571.305 (FMVSS 305), Electric-powered vehicles: electrolyte spillage and electrical shock protection, S5.3 and S7.6', note: 'Form of the isolation formula and thresholds from memory; the formula checked algebraically against UN R100.', grade: 'from memory' }],
  ['fuse-maker-guides', { title: 'Application guides and sheets of fuse makers (semiconductor fuse guide, appendix a; fuse selection charts 1 and 2; 1000 V DC ferrule fuse sheet; 40 A large blade fuse sheet)', note: 'Ambient, forced-air and load factors, pulse shapes, pulse life. The root sign of the ambient factor was lost in the page text and is restored.', grade: 'published' }],
  ['iec-60204-1', { title: 'IEC 60204-1, Safety of machinery: electrical equipment of machines, clause 6.2.4', note: '60 V within 5 s of switching off; within 1 s at pins of a withdrawn plug; charges up to 60 µC exempt. Seen on a secondary page.', grade: 'published' }],
  ['iec-60228', { title: 'IEC 60228, Conductors of insulated cables, table 3 (class 5) and the temperature correction table', note: 'Seen in two independent reprints.', grade: 'published' }],
  ['iec-60269-1', { title: 'IEC 60269-1, Low-voltage fuses: general requirements, tables 2 and 3', note: 'Conventional currents and gates of gG fuses from memory; scope and letter codes seen.', grade: 'from memory' }],
  ['iec-60269-4', { title: 'IEC 60269-4, Low-voltage fuses: fuse-links for semiconductor protection', note: 'Principle of partial-range fuses seen; ratio of minimum breaking current from memory.', grade: 'from memory' }],
  ['iec-60287-2-1', { title: 'IEC 60287-2-1, Electric cables: calculation of the current rating, thermal resistance', note: 'Free-air surface loss h = 0.21/De^0.60 + 3.94 from memory; thermal resistivities of insulations seen on a secondary page.', grade: 'from memory' }],
  ['iec-60364-4-43', { title: 'IEC 60364-4-43, Low-voltage electrical installations: protection against overcurrent, clauses 433.1 and 434.5.2; k values as in IEC 60364-5-54 tables A.54.2 to A.54.6', note: 'Rules and k values seen in a national reprint. A web table gives k = 143 for loaded PVC cable: that value is for a start at 30 °C.', grade: 'published' }],
  ['iec-60853-2', { title: 'IEC 60853-2, Calculation of the cyclic and emergency current rating of cables', note: 'Van Wormer share and volumetric heats from memory.', grade: 'from memory' }],
  ['iec-60949', { title: 'IEC 60949, Calculation of thermally permissible short-circuit currents, clause 3 and table 1', note: 'Equation, beta, volumetric heats and resistivities seen; K = 226 and 148 from memory and recomputed.', grade: 'published' }],
  ['iec-61010', { title: 'IEC 61010-031 and IEC 61010-2-033, Safety requirements for hand-held probes and multimeters', note: 'Measurement categories from memory; that a battery is treated like CAT III is what the trade does.', grade: 'from memory' }],
  ['iec-61660-1', { title: 'IEC 61660-1, Short-circuit currents in d.c. auxiliary installations', note: 'Battery model from memory.', grade: 'from memory' }],
  ['iec-61851-1', { title: 'IEC 61851-1, Electric vehicle conductive charging system: general requirements, annexes A and B', note: 'Pilot states, duty cycle and cable coding seen in secondary sources. An 80 A code of 56 ohm appears in one instrument table only and is not used.', grade: 'published' }],
  ['iso-10133', { title: 'ISO 10133, Small craft: extra-low-voltage d.c. installations, annex A', note: '10 % drop from memory.', grade: 'from memory' }],
  ['iso-11898-2', { title: 'ISO 11898-2, Road vehicles: controller area network, high-speed medium access unit', note: '120 ohm at each end, 60 ohm between the lines; seen in device manuals.', grade: 'published' }],
  ['iso-16750-2', { title: 'ISO 16750-2, Road vehicles: environmental conditions and testing, electrical loads', note: 'Supply voltage classes from memory.', grade: 'from memory' }],
  ['iso-4130', { title: 'ISO 4130, Road vehicles: three-dimensional reference system and fiducial marks', note: 'Directions of the axes.', grade: 'published' }],
  ['iso-6469-2', { title: 'ISO 6469-2:2018, Electrically propelled road vehicles: safety specifications, vehicle operational safety', note: 'Two deliberate actions to a vehicle that can move, one to switch it off, indication of readiness: from memory, no clause seen.', grade: 'from memory' }],
  ['iso-6469-3', { title: 'ISO 6469-3:2021, Electrically propelled road vehicles: safety specifications, electrical safety', note: 'Voltage classes, bonding, test voltage seen in previews. No numeric discharge time was found in it.', grade: 'published' }],
  ['iso-6469-4', { title: 'ISO 6469-4:2015, Electrically propelled road vehicles: safety specifications, post crash electrical safety, clause 5.2', note: '0.2 J, 60 V after 10 s; seen in a preview.', grade: 'published' }],
  ['iso-8820-3', { title: 'ISO 8820-3, Road vehicles: fuse-links with tabs (blade type)', note: 'Opening times: 160 % and 200 % of the regular blade and the 40 A large blade seen in makers’ sheets; the rest from memory.', grade: 'published' }],
  ['jazar-vehicle-dynamics', { title: 'Jazar, R. N., Vehicle Dynamics: Theory and Application, chapter 2', note: 'Axle loads, centre of gravity and its height. Example 43 contradicts the book’s own equation 2.32 (1.876 m, printed 0.34 m) and is not used.', grade: 'published' }],
  ['jcgm-100', { title: 'JCGM 100:2008, Guide to the expression of uncertainty in measurement, clause 4.3', note: 'Meaning of stated limits.', grade: 'published' }],
  ['lead-acid-table', { title: 'Voltage over charge of a rested flooded lead-acid battery; parasitic drain and no-start rules', note: 'Five points from a mailing-list table, drains from a battery FAQ, no-start at 40 % from a maker’s bulletin. Rules of thumb: no standard’s table was found.', grade: 'published' }],
  ['lgm50-open-data', { title: 'Open data of a 5 Ah 21700 NMC 811 cell (open-circuit voltage and pulses at 0 to 45 °C), WDWanidage Simscape-Battery-Library and PyBOP, BSD-3-Clause/MIT; cell of Chen et al. 2020', note: 'Curve and 10 s resistances.', grade: 'published' }],
  ['lfp-open-data', { title: 'About:Energy, open measurements of a 2 Ah 18650 LFP cell at 25 °C, CC BY-SA 4.0', note: 'C/20 discharge, used only for comparison in checks.', grade: 'published' }],
  ['nfpa-70e', { title: 'NFPA 70E, Standard for electrical safety in the workplace', note: 'Approach boundaries seen in secondary sources. One public example of incident energy (11.0 cal/cm²) contradicts its own formula and is not used.', grade: 'published' }],
  ['nist-sp-811', { title: 'NIST Special Publication 811 (2008), Guide for the use of the International System of Units, appendix B', note: 'Conversion factors.', grade: 'published' }],
  ['piecewise-ocv-open-data', { title: 'Open data: piecewise-linear open-circuit voltage of cylindrical cells (C/20 and C/32 tests), S. Sunil', note: 'Knots of three cells.', grade: 'published' }],
  ['resistor-maker-note', { title: 'Precharge resistor calculation note of a resistor maker', note: 'Peak U/R, done at five time constants, C U²/2 per start, mean power of repeated starts.', grade: 'published' }],
  ['sae-j1128', { title: 'SAE J1128, Low voltage primary cable', note: 'Areas from memory: SAE sizes lie below AWG ones.', grade: 'from memory' }],
  ['ti-tiduf73', { title: 'Texas Instruments TIDUF73, precharge reference design guide, equations 1 to 4', note: 'Capacitor voltage, five time constants in 0.5 s with 50 ohm, energy.', grade: 'published' }],
  ['un-r100', { title: 'UN Regulation No. 100, revisions 2 and 3, Electric power train vehicles, clauses 2, 5.1, 5.3 and annex 4B', note: 'Isolation limits and the three-reading method seen; the coupler value, the rules of clause 5.3 (indication of readiness, no movement while plugged in) and shock tables from memory. The worked example was constructed for this project.', grade: 'published' }],
  ['un-r94', { title: 'UN Regulation No. 94, Frontal collision, annex 11', note: 'Energy formula with the 60 V offset from memory; the 0.2 J limit seen in ISO 6469-4.', grade: 'from memory' }],
]);

/** The page SOURCES.md, in Markdown. */
export function sourcesPage(): string {
  const lines = [
    '# Sources', '',
    'Every key that a number, a check or a finding names. `published`: the value was seen in print (a table of the standard, a reprint of it,',
    'a maker’s sheet, an open data set), mostly in secondary sources, as noted. `from memory`: not seen in print for this project; confirm it',
    'before relying on it. `closed form`: follows by mathematics. `common practice`: no source to cite.', '',
    'Made by `catalogue/sources.ts`; do not edit by hand.', '',
    '| key | source | grade | what is used, and how it was seen |', '|---|---|---|---|',
  ];
  for (const [key, { title, grade, note }] of [...sources].sort(([a], [b]) => (a < b ? -1 : 1))) {
    lines.push(`| \`${key}\` | ${cell(title)} | ${grade} | ${cell(note)} |`);
  }
  return `${lines.join('\n')}\n`;
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ');
}
