"""Plan to page: views for the templates, HTML from the views, PDF from the HTML."""
