"""Invented clubs whose figures are known: does the fit find them, does the advice serve them?"""
