"""What a label has to say."""
