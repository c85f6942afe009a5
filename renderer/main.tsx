/** Puts the program on the page. */

import './ui/theme.css';
import './ui/controls.css';
import './ui/page.css';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { bridge } from './host/bridge.ts';

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no place for the program');
createRoot(root).render(<App bridge={bridge} />);
