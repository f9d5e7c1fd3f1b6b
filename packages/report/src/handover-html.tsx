import { renderToStaticMarkup } from 'react-dom/server';
import { Handover } from './handover.tsx';
import { type HandoverInput, handedOver, stateName } from './handover-input.ts';
import { handoverStyle } from './handover-style.ts';

/**
 * The handover of a house as one HTML page that needs nothing else: style and drawings are inside, there are no
 * scripts and no links out. The same input gives the same text; there is no date but the one in the job.
 */
export const handoverHtml = (input: HandoverInput): string =>
  `<!doctype html>\n${renderToStaticMarkup(
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{`${input.job.name}: handover, ${stateName(input.job, handedOver(input).id).toLowerCase()}`}</title>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: our own constant style sheet */}
        <style dangerouslySetInnerHTML={{ __html: handoverStyle }} />
      </head>
      <body>
        <Handover {...input} />
      </body>
    </html>,
  )}\n`;
