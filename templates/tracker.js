// Makes a page one to work by: keeps the place in rounds, steps and tables, marks it on the chart, shows one size alone.
// Without this script the page lacks nothing but that.
(() => {
  'use strict';

  // Makes an element with a class and its text.
  const make = (name, look, text = '') => {
    const node = document.createElement(name);
    node.className = look;
    node.textContent = text;
    return node;
  };

  // What is kept is kept on this device only. Storage may be shut off: then it lasts as long as the page is open.
  const recall = (key) => {
    try {
      return localStorage.getItem(key) ?? '';
    } catch {
      return '';
    }
  };
  const keep = (key, value) => {
    try {
      localStorage.setItem(key, value);
    } catch {
      // Nothing to be done, and nothing is lost but the memory.
    }
  };

  // The screen stays awake from the first step taken until the page is left.
  let awake = false;
  const wake = () => {
    if (awake && document.visibilityState === 'visible') {
      navigator.wakeLock?.request('screen').catch(() => {});
    }
  };
  document.addEventListener('visibilitychange', wake);

  // The numbers that a name tells: "Rounds 7 to 9" is 7, 8 and 9.
  const numbers = (label) => {
    const found = [];
    for (const [, from, to] of label.matchAll(/(\d+)(?: to (\d+))?/g)) {
      for (let n = Number(from); n <= Number(to ?? from); n += 1) {
        found.push(n);
      }
    }
    return found;
  };
  const text = (node) => node?.textContent.trim().replace(/\s+/g, ' ') ?? '';
  const boxes = (node) => [...node.querySelectorAll('input[type=checkbox]')];

  // The places of a list of rows: a row worked again comes again when all have been worked.
  const ofRows = (list) => {
    const rows = [...list.children].map((node) => ({
      node,
      name: text(node.querySelector('dt')),
      words: () => text(node.querySelector('dd')),
      boxes: boxes(node),
    }));
    const last = Math.max(...rows.flatMap(({ name }) => numbers(name)));
    const times = Math.max(1, ...rows.map((row) => row.boxes.length));
    const places = [];
    for (let time = 0; time < times; time += 1) {
      for (const row of rows.filter((one) => time === 0 || time < one.boxes.length)) {
        const again = row.boxes.length > 1 ? `, time ${time + 1} of ${row.boxes.length}` : '';
        places.push({ ...row, count: `of ${last}${again}.`, box: row.boxes[time], rows: numbers(row.name) });
      }
    }
    return places;
  };

  // Those of numbered steps: one for each box of a step.
  const ofSteps = (list) => {
    const steps = [...list.children];
    return steps.flatMap((step, i) => {
      const name = text(step.querySelector('h3'));
      const of = `step ${i + 1} of ${steps.length}`;
      const ticks = boxes(step);
      if (ticks.length === 0) {
        return [{ node: step, name, count: `${of}.`, words: () => text(step.querySelector('p')) }];
      }
      return ticks.map((box) => {
        const own = boxes(box.closest('.ticks'));
        const stripe = box.closest('.stripes > li');
        const words = () => (stripe ? text(stripe.firstChild) || text(stripe).replace(/( \d+)+$/, '') : text(step.querySelector('p')));
        return { node: stripe ?? step, name, box, words, count: `${of}, round ${own.indexOf(box) + 1} of ${own.length}.` };
      });
    });
  };

  // Those of a table of rounds: a line of several rounds has as many.
  const ofTable = (table) => {
    const heads = [...table.querySelectorAll('thead th')];
    const rows = [...table.querySelectorAll('tbody tr')];
    return rows.flatMap((node, i) => {
      const name = text(node.cells[0]);
      const words = () =>
        [...node.cells]
          .flatMap((cell, at) => (at === 0 || cell.hidden ? [] : [`${text(heads[at])}: ${text(cell)}`]))
          .join('; ');
      const rounds = Number(name.match(/(\d+) rounds?\b/)?.[1] ?? 1);
      return Array.from({ length: rounds }, (_, n) => ({
        node,
        name,
        words,
        count: `line ${i + 1} of ${rows.length}${rounds > 1 ? `, round ${n + 1} of ${rounds}` : ''}.`,
      }));
    });
  };

  // A row's mark on every part of its chart.
  const mark = (charts, rows) => {
    for (const chart of charts) {
      chart.querySelectorAll('.now').forEach((node) => node.remove());
      for (const area of chart.dataset.areas.split(';')) {
        const [number, x, y, width, height] = area.split(' ');
        if (rows.includes(Number(number))) {
          const node = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
          Object.entries({ class: 'now', x, y, width, height }).forEach(([key, value]) => node.setAttribute(key, value));
          chart.append(node);
        }
      }
    }
  };

  const trackers = [];
  const track = (list, { title, unit, charts, placesOf, before }) => {
    let places = placesOf(list);
    if (places.length < 2) {
      return;
    }
    const key = `place ${trackers.length} of ${location.pathname}`;
    const tracker = make('div', 'tracker');
    tracker.setAttribute('role', 'group');
    tracker.setAttribute('aria-label', `Where am I? ${title}`.trim());

    const buttons = make('div', 'moves');
    const button = (words, look) => {
      const node = make('button', look, words);
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

    // One past the last place is the end. What was left by "Start again" can be had back until the next step.
    const kept = recall(key);
    let place = /^\d+$/.test(kept) && Number(kept) <= places.length ? Number(kept) : 0;
    let left = 0;
    const show = () => {
      const at = places[place];
      label.textContent = at?.name ?? 'The end';
      count.textContent = at?.count ?? `of ${title}.`;
      words.textContent = at?.words() ?? 'All of it is worked.';
      for (const node of new Set(places.map((one) => one.node))) {
        const here = node === at?.node;
        const term = node.querySelector('dt, h3, th') ?? node;
        node.classList.toggle('here', here);
        if (here) {
          term.setAttribute('aria-current', 'step');
        } else {
          term.removeAttribute('aria-current');
        }
      }
      places.forEach(({ box }, i) => {
        if (box) {
          box.checked = i < place;
        }
      });
      mark(charts, at?.rows ?? []);
      again.textContent = left > 0 ? 'Not again: back to where I was' : 'Start again';
      // Not "disabled", which would throw the focus off the button at either end.
      back.setAttribute('aria-disabled', String(place === 0));
      next.setAttribute('aria-disabled', String(place === places.length));
      again.setAttribute('aria-disabled', String(place === 0 && left === 0));
    };
    const go = (to, from = 0) => {
      if (to < 0 || to > places.length || to === place) {
        return;
      }
      awake = true;
      wake();
      left = from;
      place = to;
      keep(key, String(place));
      show();
    };
    const restart = () => (left > 0 ? go(left) : go(0, place));

    back.addEventListener('click', () => go(place - 1));
    next.addEventListener('click', () => go(place + 1));
    again.addEventListener('click', restart);
    // A box ticked by hand is the last one worked; one cleared is to be worked next.
    list.addEventListener('change', ({ target }) => {
      const at = places.findIndex(({ box }) => box === target);
      if (at >= 0) {
        go(target.checked ? at + 1 : at);
      }
    });
    // Heard only while the focus is in here; the page then stays where it is.
    tracker.addEventListener('keydown', (event) => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) {
        return;
      }
      const act = { ArrowUp: () => go(place - 1), ArrowDown: () => go(place + 1), Home: () => go(0, place) }[event.key];
      if (act) {
        event.preventDefault();
        act();
      }
    });

    trackers.push(() => {
      places = placesOf(list);
      place = Math.min(place, places.length);
      show();
    });
    show();
    tracker.append(
      make('h3', 'ask', 'Where am I?'),
      buttons,
      now,
      make('p', 'keys', 'Keys, while a button here has the focus: arrow down for the next, arrow up for one back, Home to start again.'),
    );
    before.before(tracker);
  };

  // Numbers of all sizes, "88 (96, 104)", and columns of tables, for one size alone.
  const sizes = document.body.dataset.sizes?.split('|') ?? [];
  const spoken = [];
  const choose = (size) => {
    const only = sizes.indexOf(size);
    for (const [node, whole] of spoken) {
      node.data =
        only < 0
          ? whole
          : whole.replace(/([\d.]+|–) \(([^()]*)\)/g, (all, first, rest) => {
              const each = [first, ...rest.split(', ')];
              return each.length === sizes.length && each.every((one) => /^([\d.]+|–)$/.test(one)) ? each[only] : all;
            });
    }
    for (const table of document.querySelectorAll('table')) {
      const places = sizes.map((name) => [...table.rows[0].cells].findIndex((cell) => text(cell) === name));
      if (places.every((at) => at > 0)) {
        for (const row of table.rows) {
          places.forEach((at, i) => {
            row.cells[at].hidden = only >= 0 && i !== only;
          });
        }
      }
    }
    trackers.forEach((show) => show());
  };
  const chooser = () => {
    const walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      if (/\d|–/.test(walker.currentNode.data) && !walker.currentNode.parentElement.closest('svg, .tracker')) {
        spoken.push([walker.currentNode, walker.currentNode.data]);
      }
    }
    const select = make('select', '');
    select.append(new Option('all sizes', ''), ...sizes.map((size) => new Option(size, size)));
    const label = make('label', 'chooser', 'Show me ');
    label.append(select);
    document.querySelector('main').prepend(label);
    select.addEventListener('change', () => {
      keep('size', select.value);
      choose(select.value);
    });
    // Two sizes that are one piece share a name: "Adult small, Adult medium".
    const own = recall('size');
    const known = sizes.find((size) => size === own) ?? sizes.find((size) => own && (size.includes(own) || own.includes(size)));
    if (known) {
      select.value = known;
      choose(known);
    }
  };

  let over = '';
  let charts = [];
  for (const node of document.querySelectorAll('h1, h2, svg[data-areas], dl.rows, ol.steps, table')) {
    if (node.matches('h1, h2')) {
      over = text(node);
    } else if (node.matches('svg')) {
      charts.push(node);
    } else if (node.matches('dl')) {
      // "Round" or "Row": the list's own word.
      const unit = text(node.querySelector('dt')).split(' ')[0].toLowerCase().replace(/s$/, '');
      track(node, { title: over, unit, charts, placesOf: ofRows, before: node });
      charts = [];
    } else if (node.matches('ol')) {
      track(node, { title: over, unit: 'step', charts: [], placesOf: ofSteps, before: node });
    } else if (['Round', 'Row', 'Line'].includes(text(node.rows[0].cells[0]))) {
      track(node, { title: over, unit: 'round', charts: [], placesOf: ofTable, before: node.parentElement });
    }
  }
  if (sizes.length > 1) {
    chooser();
  }

  // What does not scroll need not be stopped at; what does says so.
  const settle = () => {
    for (const node of document.querySelectorAll('.wide')) {
      const scrolls = node.scrollWidth > node.clientWidth + 1;
      node.classList.toggle('scrolls', scrolls);
      if (scrolls) {
        node.setAttribute('tabindex', '0');
      } else {
        node.removeAttribute('tabindex');
      }
    }
  };
  settle();
  addEventListener('resize', settle);
})();
