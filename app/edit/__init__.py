"""What a person does to a job, as pure functions: a room a card, and what these share."""
