"""What trainers put in front of drivers: quizzes and sign-off lists, however they are shown."""
