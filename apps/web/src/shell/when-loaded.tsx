import { Component, type ReactNode, Suspense } from 'react';

/** Waits for a part of the page that is loaded when asked for; where it cannot be loaded, the rest of the page stays. */
export class WhenLoaded extends Component<{ children: ReactNode }, { failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override render() {
    if (!this.state.failed)
      return <Suspense fallback={<p className="quiet">One moment …</p>}>{this.props.children}</Suspense>;
    return (
      <p role="alert">
        This part of the page could not be loaded or shown.{' '}
        <button type="button" className="link-button" onClick={() => location.reload()}>
          Load the page again
        </button>
      </p>
    );
  }
}
