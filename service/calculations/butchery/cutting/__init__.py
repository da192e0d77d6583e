"""A cutting test: parts weighed, held against what was bought and against what is published of the cut."""
