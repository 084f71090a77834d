"""The button ▶ Start, found as every page of the kit has it."""

START = "button[data-commandlinker-command]"
HAS_RUN = f'{START}[aria-busy="false"]'
