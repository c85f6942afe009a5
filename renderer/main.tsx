/** Puts the program on the page. */

import './ui/theme.css';
import './ui/controls.css';
import './ui/frame.css';
import './commands/commands.css';
import './headers/headers.css';
import './shelf/shelf.css';
import './archive/archive.css';
import './help/help.css';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { bridge } from './host/bridge.ts';

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no place for the program');
createRoot(root).render(<App bridge={bridge} />);
