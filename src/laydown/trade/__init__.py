"""The rules of craft, law and till: arithmetic and tables of the trade."""
