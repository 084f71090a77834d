"""The forge: a bar of one's own, one act after another, in sentences and pictures."""
