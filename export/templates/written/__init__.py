"""Written pages: the job sheet with its tables, the page for the owner, the check sheet for a printer."""
