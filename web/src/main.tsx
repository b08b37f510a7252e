// SPDX-License-Identifier: MIT
import { render } from 'preact';
import { start } from './bench';
import { Page } from './page';

render(<Page />, document.getElementById('page')!);
void start();
