import { Component, type ComponentType, lazy, type ReactNode, Suspense, useState } from 'react';

type Around = (words: ReactNode) => ReactNode;
type BoundaryProps = {
  readonly around: Around;
  readonly onAgain: () => void;
  readonly children: ReactNode;
};

/** What a browser says when a file of the page does not arrive, in the words of each of them. */
const notArrived = /import|fetch|load|network/i;

/** Keeps the rest of the page when a part of it fails, says so, and lets the user try again. */
class Boundary extends Component<BoundaryProps, { readonly error?: Error }> {
  override state: { readonly error?: Error } = {};

  static getDerivedStateFromError(error: Error) {
    return { error };
  }

  override render() {
    const { around, onAgain, children } = this.props;
    const { error } = this.state;
    if (!error) return children;
    const again = () => {
      onAgain();
      this.setState({ error: undefined });
    };
    return around(
      <div role="alert" className="part-failed">
        <p>
          {notArrived.test(error.message)
            ? navigator.onLine
              ? 'This part of the page did not arrive: the server does not answer.'
              : 'This part of the page did not arrive: there is no network.'
            : `This part of the page met a fault: ${error.message}`}{' '}
          The rest works on, and what you typed is kept.
        </p>
        <button type="button" className="plain-button" onClick={again}>
          Try again
        </button>
        <button type="button" className="link-button" onClick={() => location.reload()}>
          Load the page again
        </button>
      </div>,
    );
  }
}

/**
 * A part of the page that is loaded when it is first shown. Where it does not arrive or fails, words stand in its
 * place, set into `around`; so they do while it is on its way, unless they would open and shut a dialog by that.
 */
export const loadedLater = <Props extends object>(
  load: () => Promise<ComponentType<Props>>,
  around?: Around,
): ComponentType<Props> => {
  // A part that failed to load stays failed, so that another try needs a part of its own.
  const fresh = () => lazy(async () => ({ default: (await load()) as ComponentType<object> }));
  let Part = fresh();
  return (props) => {
    const [, show] = useState(0);
    return (
      <Boundary
        around={around ?? ((words) => words)}
        onAgain={() => {
          Part = fresh();
          show((tries) => tries + 1);
        }}
      >
        <Suspense fallback={around ? null : <p className="quiet">One moment …</p>}>
          <Part {...props} />
        </Suspense>
      </Boundary>
    );
  };
};
