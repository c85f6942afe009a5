/** What can hurt in this work: short, for the sheet and for Help, each with where it is from. Local codes and licensed people come first. */

export interface Caution {
  readonly title: string;
  /** One sentence, for paper. */
  readonly short: string;
  /** A paragraph, for Help. */
  readonly text: string;
  readonly source: string;
}

/** Stands before all cautions, wherever they are. */
export const CAUTIONS_FIRST =
  "Evenrun adds up lengths. It does not know your shop, your metal or your law. Local codes, the maker's data sheets and licensed practice come first, wherever they differ from a word on this page.";

export const CAUTIONS: readonly Caution[] = [
  {
    title: 'Fumes',
    short:
      'Fume of stainless and nickel alloys holds hexavalent chromium, which causes cancer: draw it off at the arc, and never weld plated or solvent-wet metal.',
    text: 'Welding, cutting and grinding stainless and nickel alloys gives off hexavalent chromium and nickel, which cause cancer. Draw the fumes off at the arc, keep your head out of them, and wear a respirator fit for metal fumes where that is not enough. Never weld on plated, galvanised or solvent-wet metal: zinc fumes make you ill, and chlorinated brake cleaner turns to poison gas under an arc.',
    source:
      'for hexavalent chromium OSHA 29 CFR 1910.1026, which allows 5 micrograms in a cubic metre of air over an eight-hour day; for coatings and solvents ANSI Z49.1 (from memory).',
  },
  {
    title: 'Argon and other purge gases',
    short:
      'Purge gas puts a person out without warning: purge in moving air, leave the far end open, and never put your head into a purged tube or pit.',
    text: 'Argon has no smell, is heavier than air, and puts a person out within a few breaths in a low or closed place. Purge in moving air, leave the far end of the tube open, shut bottles when you leave, chain them upright, and never put your head into a purged tube or pit.',
    source:
      'HSE OC 288/6, Asphyxiation hazards in welding; NIOSH FACE 94AK012, a death in an argon-filled pipe; for the open end common practice.',
  },
  {
    title: 'Titanium fines',
    short:
      'Titanium dust and chips burn, and neither water nor carbon dioxide puts them out: sweep often, and have dry sand or a class D extinguisher at hand.',
    text: 'Titanium dust and chips burn fiercely and cannot be put out with water or carbon dioxide. Sweep them up often, keep them apart from steel sparks, and have dry sand or a class D extinguisher within reach.',
    source: 'NFPA 484, Standard for Combustible Metals.',
  },
  {
    title: 'Hot metal and sharp ends',
    short: 'A tacked tube looks cold long before it is: mark hot work, deburr every cut, clamp before you saw.',
    text: 'A tacked tube looks cold long before it is. Mark hot work, deburr every cut, clamp before you saw, and keep gloves away from turning blades.',
    source: 'ANSI Z49.1, Safety in Welding, Cutting and Allied Processes (from memory); common practice.',
  },
  {
    title: 'Hot tubes near fuel and brake lines',
    short:
      'In use the tubes glow: keep them clear of fuel, brake and electric lines and of anything that burns, or shield them.',
    text: 'In use the tubes glow. Keep them clear of fuel, brake and electric lines and of anything that burns, allow for how far they grow and move when hot, and shield what cannot be moved. Brake fluid that boils does not brake.',
    source: 'common practice.',
  },
  {
    title: 'Leaks into a cabin',
    short:
      'Exhaust holds carbon monoxide, which has no smell and kills: pressure-test every joint before the engine runs, and seal the cabin from it.',
    text: 'Exhaust holds carbon monoxide, which has no smell and kills. Pressure-test every joint, run engines only where the exhaust is led outside, and see that nothing leads from the header into a cabin: not a bulkhead hole, not the air that the heater draws.',
    source: 'common practice.',
  },
  {
    title: 'Emissions and noise law',
    short:
      'On a road vehicle, moving a catalyst or a sensor, or making more noise, is unlawful in many places: find out what holds before you build.',
    text: 'On a road vehicle, taking away or moving a catalyst, an oxygen sensor or exhaust gas recirculation is unlawful in many places, and so is more noise. Find out what holds where the vehicle will be used before you build.',
    source: 'for the United States Clean Air Act, section 203(a)(3) (from memory).',
  },
];
