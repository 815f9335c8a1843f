"""Pictures that the office takes at its trucks, made ready for tablet and paper."""
