"""What the reviewer does, a verb a file, and the ports those verbs need."""
