"""What a number is: entry, units, states, repeats, instruments, uncertainty."""
