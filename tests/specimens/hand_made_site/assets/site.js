document.title
