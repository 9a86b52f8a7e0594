import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { IdleGuard } from './app/idle.tsx';
import { queryClient } from './app/query-client.ts';
import { router } from './app/router.tsx';
import { SessionGate } from './app/session.tsx';
import { applyStoredTheme } from './app/theme.tsx';
import './kit/kit.css';
import './app/shell.css';
import { startReader } from './scan/wedge.ts';
import { SignInView } from './views/sign-in/sign-in-view.tsx';
import { en } from './words/en/index.ts';
import { WordsProvider } from './words/words.tsx';

applyStoredTheme();
startReader();
const place = document.getElementById('root');
if (place === null) throw new Error('no #root in the page');
createRoot(place).render(
  <StrictMode>
    <WordsProvider words={en}>
      <QueryClientProvider client={queryClient}>
        <SessionGate signedOut={<SignInView />} reading={<p className="state">{en.app.states.loading}</p>}>
          <RouterProvider router={router} />
          <IdleGuard />
        </SessionGate>
      </QueryClientProvider>
    </WordsProvider>
  </StrictMode>,
);
