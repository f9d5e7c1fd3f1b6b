import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { keepEdits } from './keeping/autosave.ts';
import { keepSending } from './keeping/send.ts';
import { App } from './shell/app.tsx';
import { followFieldMode } from './shell/field-mode.ts';
import { openFirstJob } from './shell/first-job.ts';
import { rememberPlace } from './shell/remember-place.ts';
import { followTheme } from './shell/theme.ts';
import { keepReasons } from './state/reasons.ts';
import { keepSolved } from './state/solving.ts';

followTheme();
followFieldMode();
rememberPlace();
keepSolved();
keepReasons();
keepEdits();
keepSending();
void openFirstJob();

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
