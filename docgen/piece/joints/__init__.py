"""One file a joint: the operations and allowances it makes where parts meet."""
