/** Cautions: what can hurt in this work. Common practice, in short; local codes and licensed people come first. */

import type { ReactNode } from 'react';
import type { HelpPage } from './help-page.ts';

function Source({ children }: { readonly children: ReactNode }) {
  return <p className="help-source">Source: {children}</p>;
}

export const CAUTIONS: HelpPage = {
  id: 'cautions',
  title: 'Work safely',
  body: (
    <>
      <p>
        Evenrun adds up lengths. It does not know your shop, your metal or your law. Local codes, the maker's data
        sheets and licensed practice come first, wherever they differ from a word on this page.
      </p>
      <h2>Fumes</h2>
      <p>
        Welding, cutting and grinding stainless and nickel alloys gives off hexavalent chromium and nickel, which cause
        cancer. Draw the fumes off at the arc, keep your head out of them, and wear a respirator fit for metal fumes
        where that is not enough. Never weld on plated, galvanised or solvent-wet metal: zinc fumes make you ill, and
        chlorinated brake cleaner turns to poison gas under an arc.
      </p>
      <Source>
        for hexavalent chromium OSHA 29 CFR 1910.1026, which allows 5 micrograms in a cubic metre of air over an
        eight-hour day; for coatings and solvents ANSI Z49.1 (from memory).
      </Source>
      <h2>Argon and other purge gases</h2>
      <p>
        Argon has no smell, is heavier than air, and puts a person out within a few breaths in a low or closed place.
        Purge in moving air, shut bottles when you leave, chain them upright, and never put your head into a purged tube
        or pit.
      </p>
      <Source>
        HSE OC 288/6, Asphyxiation hazards in welding; NIOSH FACE 94AK012, a death in an argon-filled pipe.
      </Source>
      <h2>Titanium fines</h2>
      <p>
        Titanium dust and chips burn fiercely and cannot be put out with water or carbon dioxide. Sweep them up often,
        keep them apart from steel sparks, and have dry sand or a class D extinguisher within reach.
      </p>
      <Source>NFPA 484, Standard for Combustible Metals.</Source>
      <h2>Hot metal and sharp ends</h2>
      <p>
        A tacked tube looks cold long before it is. Mark hot work, deburr every cut, clamp before you saw, and keep
        gloves away from turning blades.
      </p>
      <Source>ANSI Z49.1, Safety in Welding, Cutting and Allied Processes (from memory); common practice.</Source>
      <h2>Exhaust leaks</h2>
      <p>
        Exhaust holds carbon monoxide, which has no smell and kills. Pressure-test every joint, run engines only where
        the exhaust is led outside, and keep tubes clear of fuel, brake and electric lines and of anything that burns.
      </p>
      <Source>common practice.</Source>
      <h2>Emissions and noise law</h2>
      <p>
        On a road vehicle, taking away or moving a catalyst, an oxygen sensor or exhaust gas recirculation is unlawful
        in many places, and so is more noise. Find out what holds where the vehicle will be used before you build.
      </p>
      <Source>for the United States Clean Air Act, section 203(a)(3) (from memory).</Source>
    </>
  ),
};
