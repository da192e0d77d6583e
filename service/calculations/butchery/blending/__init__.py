"""What a blend is made of: materials, rules, the programme that is solved, and what is told of it."""
