/*
 * What a page must not leave unsaid: that Python stopped, and that an answer was
 * changed after it was checked. JupyterLab's own dialog says "will restart", and the
 * old verdict would stand above the new answer.
 */
const STOPPED = 'Python stopped. What you see is from before: nothing you do now is worked out '
  + 'or checked. Press Start again, further up on the page; then “Bring back …”, or '
  + 'your paper’s draft, brings everything back.';
const CUT_OFF = 'The kit does not answer: nothing you do now is worked out or checked. '
  + 'Is it still running in its terminal window? If not, start it again.';
const WAIT = 2000; // ms: a restart that was asked for goes on sooner
const ANSWERS = '.widget-text input, .kit-answer input, .kit-controls input';

/* One line at the top of a page, which stays in sight and is read out. */
function line(panel) {
  const made = document.createElement('p');
  made.className = 'steel-stopped';
  made.setAttribute('role', 'alert');
  panel.content.node.querySelector('.jp-WindowedPanel-outer').prepend(made);
  return made;
}

function watch(panel, session) {
  const told = line(panel);
  const timers = { stopped: 0, cutOff: 0 };
  let ran = false; // something of this page was worked out
  let asked = false; // for this Python, by this window

  function soon(kind, words, wait) {
    clearTimeout(timers[kind]);
    timers[kind] = setTimeout(() => { told.textContent ||= ran ? words : ''; }, wait);
  }

  session.statusChanged.connect((_, status) => {
    if (status === 'autorestarting' || status === 'dead') {
      told.textContent = '';
      soon('stopped', STOPPED, 0);
    } else if (status === 'restarting') {
      asked = true;
      soon('stopped', STOPPED, WAIT);
    } else if (status === 'starting') { // maybe by another window, on the same page
      const { kernel } = session.session ?? {};
      if (ran && !asked && kernel) {
        // what JupyterLab here still sends messages through is gone with the old Python
        kernel.commsOverSubshells = 'disabled';
      }
      asked = false;
      soon('stopped', STOPPED, WAIT);
    }
  });
  session.connectionStatusChanged.connect((_, status) => {
    clearTimeout(timers.cutOff);
    if (status !== 'connected') {
      soon('cutOff', CUT_OFF, 2 * WAIT);
    } else if (told.textContent === CUT_OFF) {
      told.textContent = '';
    }
  });
  session.iopubMessage.connect((_, message) => {
    const own = message.parent_header.session === session.session?.kernel?.clientId;
    if (message.header.msg_type === 'execute_input' && own) {
      clearTimeout(timers.stopped);
      ran = true;
      told.textContent = '';
    }
  });
}

/* A verdict goes as soon as its answer is touched; Python writes the next one. */
function takeBack(event) {
  if (event.target.matches?.(ANSWERS)) {
    const says = event.target.closest('.kit-check')?.querySelector('.kit-says p');
    if (says && /[✓✗]/.test(says.textContent)) {
      says.textContent = 'Not checked yet.';
    }
  }
}

export default {
  id: 'steel-lessons:watch',
  description: 'Says when Python stopped, and takes back what was said of another answer.',
  autoStart: true,
  activate: (app) => {
    for (const kind of ['input', 'change']) {
      document.addEventListener(kind, takeBack, true);
    }
    app.docRegistry.addWidgetExtension('Notebook', {
      createNew: (panel, context) => { watch(panel, context.sessionContext); },
    });
  },
};
