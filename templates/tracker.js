// Keeps the place in a chart while you work. Before every list of rows in words it puts the row you are at,
// large, with buttons to move on. Without this script the page lacks nothing but that.
(() => {
  'use strict';

  // Makes an element with a class and its text.
  const make = (name, look, text = '') => {
    const node = document.createElement(name);
    node.className = look;
    node.textContent = text;
    return node;
  };

  // The place is kept on this device only. Storage may be shut off: then it lasts as long as the page is open.
  const recall = (key, count) => {
    try {
      const kept = localStorage.getItem(key) ?? '';
      return /^\d+$/.test(kept) && Number(kept) < count ? Number(kept) : 0;
    } catch {
      return 0;
    }
  };
  const keep = (key, place) => {
    try {
      localStorage.setItem(key, String(place));
    } catch {
      // Nothing to be done, and nothing is lost but the memory.
    }
  };

  const track = (list, index, chart) => {
    const rows = [...list.children].map((node) => ({
      node,
      label: node.querySelector('dt')?.textContent ?? '',
      words: node.querySelector('dd')?.textContent ?? '',
    }));
    if (rows.length < 2) {
      return;
    }
    const key = `place ${index} of ${location.pathname}`;
    // "Round" or "Row": the list's own word.
    const unit = rows[0].label.split(' ')[0].toLowerCase();

    const tracker = make('div', 'tracker');
    tracker.setAttribute('role', 'group');
    tracker.setAttribute('aria-label', `Where am I? ${chart}`.trim());

    const buttons = make('div', 'moves');
    const button = (text, look) => {
      const node = make('button', look, text);
      node.type = 'button';
      buttons.append(node);
      return node;
    };
    const back = button('One back', 'back');
    const next = button(`Next ${unit}`, 'next');
    const again = button('Start again', 'again');

    // The buttons stand above the words, so that they stay under the finger when rows differ in length.
    const now = make('div', 'now');
    now.setAttribute('role', 'status');
    const label = make('b', 'label');
    const count = make('span', 'count');
    const words = make('p', 'words');
    const line = make('p', 'line');
    line.append(label, ' ', count);
    now.append(line, words);

    let place = recall(key, rows.length);
    const show = () => {
      const { label: name, words: text } = rows[place];
      label.textContent = name;
      count.textContent = `${place + 1} of ${rows.length}`;
      words.textContent = text;
      rows.forEach(({ node }, i) => {
        node.classList.toggle('here', i === place);
        const term = node.querySelector('dt');
        if (i === place) {
          term?.setAttribute('aria-current', 'step');
        } else {
          term?.removeAttribute('aria-current');
        }
      });
      // Not "disabled", which would throw the focus off the button at either end.
      back.setAttribute('aria-disabled', String(place === 0));
      next.setAttribute('aria-disabled', String(place === rows.length - 1));
    };
    const go = (to) => {
      if (to < 0 || to >= rows.length || to === place) {
        return;
      }
      place = to;
      keep(key, place);
      show();
    };

    back.addEventListener('click', () => go(place - 1));
    next.addEventListener('click', () => go(place + 1));
    again.addEventListener('click', () => go(0));
    // Heard only while the focus is in here; the page then stays where it is.
    tracker.addEventListener('keydown', (event) => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) {
        return;
      }
      const to = { ArrowUp: place - 1, ArrowDown: place + 1, Home: 0 }[event.key];
      if (to !== undefined) {
        event.preventDefault();
        go(to);
      }
    });

    show();
    tracker.append(
      make('h3', 'ask', 'Where am I?'),
      buttons,
      now,
      make('p', 'keys', 'Keys, while a button here has the focus: arrow down for the next, arrow up for one back, Home to start again.'),
    );
    list.before(tracker);
  };

  let chart = '';
  let index = 0;
  for (const node of document.querySelectorAll('h1, dl.rows')) {
    if (node.tagName === 'H1') {
      chart = node.textContent;
    } else {
      track(node, index, chart);
      index += 1;
    }
  }
})();
