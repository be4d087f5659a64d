"""What a course is made of: its folder, notebooks, directives, cells, and page templates."""
