"""What spoons and pieces weigh, and what the kitchen weighs instead."""
