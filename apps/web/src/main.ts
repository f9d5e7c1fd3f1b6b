import './theme.css';
// The engine reads its script while the page reads its own.
import './worker/engine-client.ts';

void import('./page.tsx');
