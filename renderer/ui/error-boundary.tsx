/** What stands in place of a screen that failed: plain words, never a blank window. */

import { Component, type ErrorInfo, type ReactNode } from 'react';
import { Button } from './button.tsx';

interface Props {
  readonly children: ReactNode;
  /** A new value shows the children again: the screen that is being looked at. */
  readonly resetKey: string;
  /** A way out that does not need what failed; null where there is none. */
  readonly onLeave: (() => void) | null;
}

interface State {
  readonly failure: Error | null;
  readonly failedKey: string;
}

export class ErrorBoundary extends Component<Props, State> {
  override state: State = { failure: null, failedKey: '' };

  static getDerivedStateFromProps(props: Props, state: State): Partial<State> | null {
    return state.failure !== null && state.failedKey !== '' && state.failedKey !== props.resetKey
      ? { failure: null, failedKey: '' }
      : null;
  }

  static getDerivedStateFromError(failure: unknown): Partial<State> {
    return { failure: failure instanceof Error ? failure : new Error(String(failure)) };
  }

  override componentDidCatch(_failure: Error, _info: ErrorInfo): void {
    this.setState({ failedKey: this.props.resetKey });
  }

  override render(): ReactNode {
    const { failure } = this.state;
    if (failure === null) return this.props.children;
    return (
      <main className="page prose" role="alert">
        <h1>This screen stopped working</h1>
        <p>
          That is a fault of Evenrun, not of anything you did. Every entry that was shown as saved is on disk. Reloading
          the window opens the header again as it was saved.
        </p>
        <div className="actions">
          <Button look="main" onPress={() => window.location.reload()}>
            Reload the window
          </Button>
          {this.props.onLeave ? <Button onPress={this.props.onLeave}>Go to the list of headers</Button> : null}
        </div>
        <details>
          <summary>What the program said</summary>
          <p>
            <code>{`${failure.name}: ${failure.message}`}</code>
          </p>
        </details>
      </main>
    );
  }
}
