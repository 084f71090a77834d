/*
 * The look of the lessons, three kindnesses to their reader, and one question.
 *
 * Written by hand, without a bundler: JupyterLab loads this file, asks it for
 * "./style" and "./extension" and calls the functions it gets. In a JupyterLab
 * without this file the lessons work too; they only look plainer, and Start
 * then jumps to the end of the page. (But nobody asks before a stranger's page runs.)
 */
(() => {
  const here = document.currentScript.src;
  const START = 'notebook:run-all-cells';
  const RUNS = /^(notebook|runmenu|kernelmenu):(run|restart|change(-kernel)?$)/;
  const BUTTON = `button[data-commandlinker-command="${START}"]`;

  function addStyle() {
    const link = document.createElement('link');
    link.rel = 'stylesheet';
    link.href = new URL('page.css', here).href;
    document.head.append(link);
  }

  /*
   * JupyterLab takes single letters for orders: "a" and "b" put new cells into
   * the lesson, "x" takes one out. Its menus can do the same, on purpose.
   */
  function keepKeys() {
    // A key pressed on a control or on Start belongs to that control.
    document.addEventListener('focusin', (event) => {
      if (event.target.closest('.jp-OutputArea, .jp-RenderedMarkdown')) {
        event.target.setAttribute('data-lm-suppress-shortcuts', 'true');
      }
    });
    // A letter typed while a whole part of the page is chosen means nothing, nor does
    // Enter where the code is hidden: it would open it.
    window.addEventListener('keydown', (event) => {
      document.body.classList.add('steel-keyboard');
      const order = event.ctrlKey || event.metaKey || event.altKey;
      const letter = event.key.length === 1 && !order;
      const opens = event.key === 'Enter' && !order && !event.shiftKey
        && event.target.querySelector('.jp-Placeholder');
      if ((letter || opens) && event.target.matches('.jp-Cell')) {
        event.stopPropagation();
      }
    }, true);
    // Lab hears no Esc from a control, so nothing would lead on to the code below it. In
    // a text box Esc is the box's own.
    document.addEventListener('keydown', (event) => {
      if (event.key === 'Escape' && event.target.matches('.jp-OutputArea :not([type=text])')) {
        event.target.closest('.jp-Cell').focus();
      }
    });
  }

  /*
   * What a key does may push what it was pressed on out of sight, shut it or take it away:
   * then the keyboard goes on to what is next, and is seen.
   */
  const TO_DO = ':is(input, select, textarea, button):enabled, [tabindex="0"]';

  function keepFocus() {
    document.addEventListener('keydown', (event) => {
      const view = event.target.closest('.kit-view');
      if (!view || event.key === 'Tab') {
        return;
      }
      const all = [...view.querySelectorAll(TO_DO)];
      const at = all.indexOf(event.target);
      const near = [...all.slice(at), ...all.slice(0, at).reverse()];
      for (const wait of [150, 500, 1000]) { // ms, ours: until Python has answered
        setTimeout(() => {
          if (document.activeElement === document.body) {
            const next = near.find((one) => one.offsetParent && one.matches(TO_DO))
              ?? view.querySelector(TO_DO);
            next?.focus({ preventScroll: true });
          }
          if (document.activeElement.closest('.kit-view')) {
            document.activeElement.scrollIntoView({ block: 'nearest' });
          }
        }, wait);
      }
    }, true);
  }

  /*
   * A page that the kit did not bring gets no Python until its reader has said yes.
   * The server tells whose a page is; see kit/launch/contents.py.
   */
  const CODE = 'its code runs on this computer and can read, change and send away whatever you can.';
  const WORDS = {
    strange: ['Somebody else’s page.', `The kit did not bring it. Nothing of it runs by itself. If you press Start or run a part of it, ${CODE}`],
    changed: ['This page was changed.', `It has the name of a page of the kit, but is not what the kit brought. Nothing of it runs by itself. If you press Start or run a part of it, ${CODE}`],
  };
  const welcome = new WeakSet(); // pages whose reader has said yes
  const gates = new WeakMap(); // lets Python come to a page

  function whose(context) {
    const found = context.model.getMetadata('steel')?.whose;
    return found === 'own' || found === 'changed' ? found : 'strange';
  }

  function element(tag, className, text = '') {
    const made = document.createElement(tag);
    made.className = className;
    made.textContent = text;
    return made;
  }

  function ask(context) {
    const [head, rest] = WORDS[whose(context)];
    const box = element('dialog', 'steel-question');
    const words = element('p', '', ` ${rest} Only start what comes from somebody you trust.`);
    words.prepend(element('strong', '', head));
    words.id = 'steel-question';
    box.setAttribute('aria-labelledby', words.id);
    const answers = element('form', '');
    answers.method = 'dialog';
    for (const [text, value] of [['Do not start', ''], ['Start it', 'yes']]) {
      const button = element('button', '', text);
      button.value = value;
      answers.append(button);
    }
    box.append(words, answers);
    document.body.append(box);
    box.showModal();
    return new Promise((resolve) => box.addEventListener('close', () => {
      box.remove();
      resolve(box.returnValue === 'yes');
    }));
  }

  async function mayRun(context) {
    if (whose(context) !== 'own' && !welcome.has(context) && !await ask(context)) {
      return false;
    }
    welcome.add(context);
    gates.get(context)();
    return true;
  }

  function tellWhose(panel, context) {
    panel.node.querySelector('.steel-whose')?.remove();
    if (whose(context) !== 'own') {
      const [head, rest] = WORDS[whose(context)];
      const line = element('p', 'steel-whose', ` ${rest}`);
      line.setAttribute('role', 'note');
      line.prepend(element('strong', '', head));
      panel.content.node.querySelector('.jp-WindowedPanel-outer').prepend(line);
    }
  }

  function askFirst(app) {
    app.docRegistry.addWidgetExtension('Notebook', {
      createNew: (panel, context) => {
        const begin = context.sessionContext.startKernel.bind(context.sessionContext);
        const open = new Promise((resolve) => { gates.set(context, resolve); });
        context.sessionContext.startKernel = () => open.then(begin);
        context.ready.then(() => {
          tellWhose(panel, context);
          context.model.metadataChanged.connect(() => tellWhose(panel, context));
          if (whose(context) === 'own') {
            gates.get(context)();
          }
        });
      },
    });
  }

  /*
   * Whatever runs a part of the page comes through here. Start, pressed as soon as
   * it is seen, would come before Python is there and do nothing: wait for it.
   */
  function waitForPython(app) {
    const execute = app.commands.execute.bind(app.commands);
    app.commands.execute = async (id, wishes) => {
      const context = app.shell.currentWidget?.context;
      if (RUNS.test(id) && gates.has(context)) {
        if (!await mayRun(context)) {
          return null;
        }
        try {
          await context.sessionContext.ready;
          await context.sessionContext.session?.kernel?.info;
        } catch {
          // Python did not come: JupyterLab says so, and says it again on a press.
        }
        if (app.shell.currentWidget?.context !== context) {
          return null; // the reader went on to another page
        }
      }
      return execute(id, wishes);
    };
  }

  /*
   * Who pressed Start goes on where there is first something to do: from its heading on,
   * if what is to be seen fits below it; and there the keyboard is, too. Whoever has gone
   * on already is left alone.
   */
  async function leadOn(button, scroller) {
    const sight = '.jp-OutputArea-output .kit-view, .jp-OutputArea-output .jupyter-widgets';
    let view = null;
    // 60 times 50 ms, ours: a slow page comes in 3 s
    for (let tries = 0; tries < 60 && document.activeElement === button; tries += 1) {
      view = scroller.querySelector(sight);
      if (view && [...view.querySelectorAll('img')].every((image) => image.complete)) {
        break;
      }
      await new Promise((done) => { setTimeout(done, 50); });
    }
    const first = [...view?.querySelectorAll(TO_DO) ?? []].find((one) => one.offsetParent);
    if (!first || document.activeElement !== button) {
      return;
    }
    const above = [...scroller.querySelectorAll('h2')].filter(
      (one) => one.compareDocumentPosition(view) & Node.DOCUMENT_POSITION_FOLLOWING,
    ).pop();
    const seen = (view.querySelector('img') ?? first).getBoundingClientRect();
    const room = scroller.getBoundingClientRect();
    const fits = above && seen.bottom - above.getBoundingClientRect().top < room.height - 16;
    first.focus({ preventScroll: true });
    scroller.scrollTop += (fits ? above : view).getBoundingClientRect().top - room.top - 8;
  }

  /*
   * JupyterLab's "run all" makes the last cell the active one and scrolls to it: put the
   * reader back. Other orders that a text may hold (open a terminal, take away a file) are
   * not carried out.
   */
  function start(app) {
    let place = null;

    document.addEventListener('click', async (event) => {
      const button = event.target.closest('.jp-RenderedHTMLCommon [data-commandlinker-command]');
      if (!button) {
        return;
      }
      event.stopImmediatePropagation();
      event.preventDefault();
      const notebook = app.shell.currentWidget?.content;
      const scroller = notebook?.node.querySelector('.jp-WindowedPanel-outer');
      if (!button.matches(BUTTON) || !scroller?.contains(button)
        || button.getAttribute('aria-busy') === 'true') {
        return; // none of ours, or pressed twice
      }
      button.setAttribute('aria-busy', 'true');
      place = { button, notebook, scroller, cell: notebook.activeCellIndex, top: scroller.scrollTop };
      const ran = await app.commands.execute(START).catch(() => false);
      if (ran === null) {
        button.removeAttribute('aria-busy');
      } else {
        await leadOn(button, scroller);
        button.setAttribute('aria-busy', 'false');
      }
    }, true);

    app.commands.commandExecuted.connect((_, { id }) => {
      if (id !== START || !place) {
        return;
      }
      const { button, notebook, scroller, cell, top } = place;
      place = null;
      notebook.activeCellIndex = cell;
      // A newer wish to scroll takes the place of the one to the last cell.
      notebook.scrollToItem(cell).catch(() => {}).then(() => {
        scroller.scrollTop = top;
        button.focus({ preventScroll: true });
      });
    });
  }

  /*
   * The head of the window is the kit's: its mark, name and one sentence, and the lesson's
   * title where the host would show a file's name. The host's menus stand aside.
   */
  const NAME = 'Pattern-welded steel';
  const SENTENCE = 'A pattern is what you meet when you cut through a history.';

  function kitHead(app) {
    const mark = new URL('mark.png', here).href;
    const head = element('div', 'steel-head');
    const image = element('img', '');
    Object.assign(image, { src: mark, alt: '' });
    const words = element('p', '');
    words.append(element('strong', '', NAME), element('span', '', SENTENCE));
    head.append(image, words);
    app.restored.then(() => {
      document.querySelector('#jp-top-panel')?.append(head);
      document.querySelectorAll('link[rel~="icon"]').forEach((one) => { one.href = mark; });
    });
    const name = new MutationObserver(() => {
      const title = titles.get(app.shell.currentWidget) ?? '';
      const wanted = title ? `${title} · ${NAME}` : NAME;
      if (document.title !== wanted) {
        document.title = wanted;
      }
    });
    name.observe(document.querySelector('title'), { childList: true });
    app.docRegistry.addWidgetExtension('Notebook', {
      createNew: (panel, context) => {
        context.ready.then(() => {
          const first = context.model.cells.get(0)?.sharedModel.getSource() ?? '';
          titles.set(panel, /^# (.+)/.exec(first)?.[1] ?? '');
        });
        // what is chosen on a page, white for the sun, is the look of the bars around it
        const dress = () => {
          if (panel.isVisible) {
            const sunlit = panel.node.classList.contains('kit-sunlight-page');
            document.body.classList.toggle('steel-sunlight', sunlit);
          }
        };
        new MutationObserver(dress).observe(panel.node, { attributeFilter: ['class'] });
      },
    });
  }

  const titles = new WeakMap(); // of pages

  const extension = {
    id: 'steel-lessons:page',
    description: 'Keeps the reader’s place and keys, and asks before a stranger’s page runs.',
    autoStart: true,
    activate: (app) => {
      keepKeys();
      keepFocus();
      kitHead(app);
      askFirst(app);
      waitForPython(app);
      start(app);
    },
  };

  window._JUPYTERLAB ??= {};
  window._JUPYTERLAB['steel-lessons'] = {
    init: () => {},
    get: async (name) => {
      if (name === './style') {
        addStyle();
      }
      const watch = await import(new URL('watch.js', here).href);
      return () => ({ __esModule: true, default: [extension, watch.default] });
    },
  };
})();
