/*
 * The look of the lessons, and three kindnesses to their reader.
 *
 * Written by hand, without a bundler: JupyterLab loads this file, asks it for
 * "./style" and "./extension" and calls the functions it gets. In a JupyterLab
 * without this file the lessons work too; they only look plainer, and Start
 * then jumps to the end of the page.
 */
(() => {
  const here = document.currentScript.src;
  const START = 'notebook:run-all-cells';
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
    // A letter typed while a whole part of the page is chosen means nothing.
    window.addEventListener('keydown', (event) => {
      document.body.classList.add('steel-keyboard');
      const order = event.ctrlKey || event.metaKey || event.altKey;
      if (event.key.length === 1 && !order && event.target.matches('.jp-Cell')) {
        event.stopPropagation();
      }
    }, true);
  }

  /*
   * Start, pressed as soon as it is seen, would come before Python is there and
   * do nothing: hold the press back and let it go when Python has answered.
   * JupyterLab then treats it like any other, and asks about untrusted pages.
   */
  function waitForPython(app) {
    let letGo = false;

    document.addEventListener('click', async (event) => {
      const button = event.target.closest(BUTTON);
      if (!button || letGo) {
        return;
      }
      event.stopImmediatePropagation();
      event.preventDefault();
      if (button.getAttribute('aria-busy') === 'true') {
        return; // pressed twice
      }
      button.setAttribute('aria-busy', 'true');
      const session = app.shell.currentWidget?.sessionContext;
      try {
        await session?.ready;
        await session?.session?.kernel?.info;
      } catch {
        // Python did not come: JupyterLab says so, and says it again on a press.
      }
      // Not at once: while a key still presses the button, no other press is heard.
      setTimeout(() => {
        button.removeAttribute('aria-busy');
        letGo = true;
        button.click();
        letGo = false;
      });
    }, true);
  }

  /*
   * JupyterLab's "run all" makes the last cell the active one and scrolls to it.
   * Who pressed Start wants to read on from there: put the reader back.
   */
  function keepPlace(app) {
    let place = null;

    document.addEventListener('click', (event) => {
      if (event.target.closest('.jp-Dialog')) {
        return; // the answer to JupyterLab's question about an untrusted page
      }
      const button = event.target.closest(BUTTON);
      const notebook = app.shell.currentWidget?.content;
      const scroller = notebook?.node.querySelector('.jp-WindowedPanel-outer');
      place = button && scroller && {
        button,
        notebook,
        scroller,
        cell: notebook.activeCellIndex,
        top: scroller.scrollTop,
      };
    }, true);

    app.commands.commandExecuted.connect((_, { id, result }) => {
      if (id !== START || !place) {
        return;
      }
      const { button, notebook, scroller, cell, top } = place;
      place = null;
      button.setAttribute('aria-busy', 'true');
      result.finally(() => button.setAttribute('aria-busy', 'false'));
      notebook.activeCellIndex = cell;
      // A newer wish to scroll takes the place of the one to the last cell.
      notebook.scrollToItem(cell).catch(() => {}).then(() => {
        scroller.scrollTop = top;
        button.focus({ preventScroll: true });
      });
    });
  }

  const extension = {
    id: 'steel-lessons:page',
    description: 'Keeps the reader’s place and keys in the lessons.',
    autoStart: true,
    activate: (app) => {
      keepKeys();
      waitForPython(app);
      keepPlace(app);
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
