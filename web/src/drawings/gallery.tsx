import '../kit/kit.css';
import './gallery.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { ControlsPage } from './gallery/controls-page.tsx';
import { MapsPage } from './gallery/maps-page.tsx';
import { PositionsPage } from './gallery/positions-page.tsx';
import { RacksPage } from './gallery/racks-page.tsx';
import { SectionsPage } from './gallery/sections-page.tsx';
import { StripsPage } from './gallery/strips-page.tsx';

/** Every drawing in every state, by day and by night. `?only=strips&theme=dark` shows a part of it. */
const pages = {
  sections: SectionsPage,
  strips: StripsPage,
  maps: MapsPage,
  positions: PositionsPage,
  racks: RacksPage,
  controls: ControlsPage,
} as const;

const asked = new URLSearchParams(window.location.search);
const themes = asked.get('theme') === null ? ['light', 'dark'] : [asked.get('theme') ?? 'light'];
const shown = Object.entries(pages).filter(([name]) => asked.get('only') === null || asked.get('only') === name);

const place = document.getElementById('gallery');
if (place !== null)
  createRoot(place).render(
    <StrictMode>
      <div className={themes.length === 1 ? 'gallery one' : 'gallery'}>
        {themes.map((theme) => (
          <main key={theme} data-theme={theme} aria-label={theme}>
            {shown.map(([name, Page]) => (
              <Page key={name} />
            ))}
          </main>
        ))}
      </div>
    </StrictMode>,
  );
