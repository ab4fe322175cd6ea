"""What a filter is and how it is taken apart; read from resources/."""
